// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/write/plan.hpp"

namespace castplan {

/// Printed pages for an evening before the season, as PDF like the sheet. All throw OutputError.

/// The lake's outline and contours alone, with the task and three rows to write on: no spots, no features.
std::string contours_pdf(const Plan& plan);
/// The same map with the best spots (before the season the best of each phase), the features that make them, and why;
/// at a stop features alone.
std::string contours_key_pdf(const Plan& plan);
/// Twelve terms on two pages: what each is, how it is drawn on a map and in a section, what a sounder shows there, why
/// fish hold there.
std::string glossary_pdf(const Plan& plan);
/// The first rows of to-check.csv with their places on a map, and a box for what was found.
std::string to_check_pdf(const Plan& plan);
/// Where a look before the season would change the plan most (`to_check`), one row a place.
std::string to_check_csv(const Plan& plan);

}  // namespace castplan
