// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/why_json.hpp"

#include "write/plain_text.hpp"

namespace castplan {

void write_texts(JsonText& json, std::string_view name, const std::vector<std::string>& list) {
  json.key(name).begin_array();
  for (const std::string& text : list) json.text(text);
  json.end_array();
}

void write_why(JsonText& json, const std::vector<Reason>& why) {
  json.key("why").begin_array();
  for (const Reason& reason : why) {
    json.begin_object().key("factor").text(reason.factor);
    json.key("value").number(reason.value, value_decimals(reason.unit)).key("unit").text(reason.unit);
    json.key("suitability").number(reason.suitability, 4).key("weight").number(reason.weight, 4);
    json.key("source").text(reason.source).end_object();
  }
  json.end_array();
}

void write_presentations(JsonText& json, const std::vector<Presentation>& presentations) {
  json.key("presentations").begin_array();
  for (const Presentation& one : presentations) {
    json.begin_object().key("lure").text(one.lure).key("run_depth_m").begin_array();
    json.number(one.run_from.value(), 2).number(one.run_to.value(), 2).end_array();
    json.key("retrieve").text(one.retrieve).end_object();
  }
  json.end_array();
}

void write_kinds(JsonText& json, const std::vector<Kind>& kinds) {
  json.key("kinds").begin_array();
  for (const Kind kind : kinds) json.text(name_of(kind));
  json.end_array();
}

void write_range(JsonText& json, std::string_view name, std::pair<Metres, Metres> range) {
  json.key(name).begin_array().number(range.first.value(), 2).number(range.second.value(), 2).end_array();
}

}  // namespace castplan
