// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/number_scan.hpp"

#include <catch2/catch.hpp>

using namespace castplan;

TEST_CASE("numbers are found with their decimals, by point and by comma") {
  const auto found = numbers_in("a 45.496564, -40,000197 [1,2] 7");
  REQUIRE(found.size() == 8);
  CHECK(found[0].value == Approx(45.496564));
  CHECK(found[0].decimals == 6);
  CHECK(found[0].at == 2);
  CHECK(found[1].value == 40.0);
  CHECK(found[2].value == Approx(40.000197));
  CHECK(found[3].value == 197.0);
  CHECK(found[4].value == 1.0);
  CHECK(found[5].value == Approx(1.2));
  CHECK(found[6].value == 2.0);
}

// HTML Living Standard, 13.5 (named references); RFC 8259, section 7; RFC 3986, section 2.1.
TEST_CASE("escapes are undone, and every byte knows where it came from") {
  const Decoded text = decoded("45&#46;4&#x39;6 \\u0034 %34 45&deg;29");
  CHECK(text.text ==
        "45.496 4 4 45\xC2\xB0"
        "29");
  CHECK(text.from[2] == 2);
  CHECK(text.from[3] == 7);
  CHECK(decoded("a & b 100%").text == "a & b 100%");
}

// RFC 4648, section 10: test vectors.
TEST_CASE("base 64 is read") {
  CHECK(from_base64("Zm9vYmFy") == "foobar");
  CHECK(from_base64("Zm9vYg") == "foob");
  CHECK(from_base64("Zm9v*").empty());
}
