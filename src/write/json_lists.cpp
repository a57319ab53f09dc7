// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/json_lists.hpp"

#include "write/plain_text.hpp"

namespace castplan {

std::string text_list(const std::vector<std::string>& texts) {
  return json_list([&](JsonText& json) {
    for (const std::string& text : texts) json.text(text);
  });
}

std::string kind_list(const std::vector<Kind>& kinds) {
  return json_list([&](JsonText& json) {
    for (const Kind kind : kinds) json.text(name_of(kind));
  });
}

std::string why_list(const std::vector<Reason>& why) {
  return json_list([&](JsonText& json) {
    for (const Reason& reason : why) {
      json.begin_object().key("factor").text(reason.factor);
      json.key("value").number(reason.value, value_decimals(reason.unit)).key("unit").text(reason.unit);
      json.key("suitability").number(reason.suitability, 4).key("weight").number(reason.weight, 4);
      json.key("source").text(reason.source).end_object();
    }
  });
}

std::string presentation_list(const std::vector<Presentation>& presentations) {
  return json_list([&](JsonText& json) {
    for (const Presentation& one : presentations) {
      json.begin_object().key("lure").text(one.lure).key("run_depth_m").begin_array();
      json.number(one.run_from.value(), 2).number(one.run_to.value(), 2).end_array();
      json.key("retrieve").text(one.retrieve).end_object();
    }
  });
}

std::string range_list(std::pair<Metres, Metres> range) {
  return json_list([&](JsonText& json) { json.number(range.first.value(), 2).number(range.second.value(), 2); });
}

void write_texts(JsonText& json, std::string_view name, const std::vector<std::string>& list) {
  json.key(name).begin_array();
  for (const std::string& text : list) json.text(text);
  json.end_array();
}

}  // namespace castplan
