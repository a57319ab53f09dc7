// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

#include "castplan/write/text.hpp"

using castplan::JsonText;
using nlohmann::json;

TEST_CASE("numbers stand in fixed notation and never as NaN, infinity or negative zero") {
  JsonText text;
  text.begin_array().number(-0.001, 2).number(1e-12, 6).number(12345678.9, 1).number(-1.5, 4);
  text.number(NAN, 2).number(std::numeric_limits<double>::infinity(), 2).number(1e20, 0).end_array();
  CHECK(text.str() == "[0.00, 0.000000, 12345678.9, -1.5000, null, null, 100000000000000000000]");
}

// RFC 8259, section 7: quotation mark, reverse solidus and U+0000 to U+001F must be escaped; section 8.1: UTF-8.
TEST_CASE("any bytes come back as text through another JSON reader") {
  std::string all;
  for (int letter = 0; letter < 128; ++letter) all += static_cast<char>(letter);
  CHECK(json::parse(JsonText().text(all).str()).get<std::string>() == all);
  CHECK(json::parse(JsonText().text("Étang des Hérons, 湖").str()).get<std::string>() == "Étang des Hérons, 湖");
  // lone lead byte, overlong slash, surrogate, cut letter: each of RFC 3629's illegal forms becomes U+FFFD
  for (const char* broken : {"a\xC3", "\xC0\xAF", "\xED\xA0\x80", "\xF0\x9F\x8E", "\xFF", "\x80z"}) {
    const auto back = json::parse(JsonText().text(broken).str()).get<std::string>();
    CHECK(back.find("\xEF\xBF\xBD") != std::string::npos);
  }
}

TEST_CASE("members keep their order, outer levels stand on lines of their own") {
  JsonText text;
  text.begin_object().key("b").integer(-3).key("a").begin_array().begin_object().key("deep").boolean(true).end_object();
  text.raw("{\"raw\": 1}").end_array().key("c").begin_object().end_object().key("d").begin_array().end_array();
  text.key("e").begin_array().number(1, 0).null().end_array().end_object();
  CHECK(text.str() ==
        "{\n  \"b\": -3,\n  \"a\": [\n    {\"deep\": true},\n    {\"raw\": 1}\n  ],\n  \"c\": {},\n  \"d\": [],\n"
        "  \"e\": [1, null]\n}");
  CHECK_NOTHROW(json::parse(text.str()));
}

TEST_CASE("a decimal comma in the locale changes nothing") {
  const char* set = nullptr;
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "de_DE", "C.UTF-8"}) {
    if ((set = std::setlocale(LC_ALL, name))) break;
  }
  REQUIRE(set != nullptr);
  const std::string text = JsonText().number(1234.5, 2).str();
  std::setlocale(LC_ALL, "C");
  CHECK(text == "1234.50");
}
