// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <set>
#include <string>
#include <vector>

#include "castplan/io/inspect.hpp"

namespace castplan {

/// Gathers what the values of one field are. Text that begins with a number ("10 ft") counts as that number.
class FieldTally {
 public:
  FieldTally(std::string name, std::string type) : name_(std::move(name)), type_(std::move(type)) {}
  void add(const std::string& value);
  [[nodiscard]] FieldFacts facts() const;

 private:
  std::string name_;
  std::string type_;
  std::set<double> levels_;
  std::size_t values_ = 0;
};

/// The field that the readers would take depths from, among those that hold two numbers at least; empty for none.
std::string depth_field(const std::vector<FieldFacts>& fields);

}  // namespace castplan
