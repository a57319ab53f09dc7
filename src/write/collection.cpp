// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/collection.hpp"

#include "write/summary.hpp"

namespace castplan {

Collection::Collection(const Plan& plan) : plan_(plan) {}

JsonText& Collection::begin_feature(const std::string& id, const GroundShape& shape) {
  extent_.add(shape);
  json_ = JsonText(JsonText::Lines::one);
  json_.begin_object().key("type").text("Feature").key("id").text(id).key("geometry");
  write_geometry(json_, shape);
  json_.key("properties").begin_object().key("id").text(id);
  return json_;
}

void Collection::end_feature() {
  json_.end_object().end_object();
  features_.push_back(json_.str());
}

std::string Collection::text() const {
  JsonText out;
  out.begin_object().key("type").text("FeatureCollection");
  write_bbox(out, extent_);
  out.key("metadata");
  write_summary(out, plan_);
  out.key("features").begin_array();
  for (const std::string& feature : features_) out.raw(feature);
  out.end_array().end_object();
  return out.str() + "\n";
}

}  // namespace castplan
