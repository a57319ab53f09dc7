// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "castplan/write/plan.hpp"
#include "castplan/write/text.hpp"
#include "write/carried.hpp"

namespace castplan {

/// Takes what is known of a feature, a spot or a pass, one property after the other, by the names of the contract.
/// Every thing of one kind gives the same names in the same order, known or not, so that a table can be made of them.
class PropertySink {
 public:
  PropertySink() = default;
  PropertySink(const PropertySink&) = delete;
  PropertySink& operator=(const PropertySink&) = delete;
  virtual ~PropertySink() = default;

  /// NaN and nothing are unknown.
  virtual void number(std::string_view name, std::optional<double> value, int decimals) = 0;
  virtual void integer(std::string_view name, long long value) = 0;
  virtual void boolean(std::string_view name, bool value) = 0;
  virtual void text(std::string_view name, std::string_view value) = 0;
  /// A list or a place, as JSON on one line.
  virtual void list(std::string_view name, const std::string& json) = 0;
  /// No text: unknown.
  virtual void none(std::string_view name) = 0;

  void text_or_none(std::string_view name, std::string_view value) { value.empty() ? none(name) : text(name, value); }
};

/// Everything but id and geometry.
void put_properties(PropertySink& sink, const Plan& plan, const Feature& feature);
void put_properties(PropertySink& sink, const Plan& plan, const Spot& spot, const PrintedCast& cast);
void put_properties(PropertySink& sink, const Plan& plan, const Pass& pass);

/// As members of an open JSON object.
class JsonSink : public PropertySink {
 public:
  explicit JsonSink(JsonText& json) : json_(json) {}
  void number(std::string_view name, std::optional<double> value, int decimals) override;
  void integer(std::string_view name, long long value) override { json_.key(name).integer(value); }
  void boolean(std::string_view name, bool value) override { json_.key(name).boolean(value); }
  void text(std::string_view name, std::string_view value) override { json_.key(name).text(value); }
  void list(std::string_view name, const std::string& json) override { json_.key(name).raw(json); }
  void none(std::string_view name) override { json_.key(name).null(); }

 private:
  JsonText& json_;
};

}  // namespace castplan
