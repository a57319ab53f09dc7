// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/write/plan.hpp"

namespace castplan {
namespace {

// As the profile has it first, the other scale in brackets.
std::string both_scales(Celsius temperature, const std::string& as_written) {
  const bool in_fahrenheit = as_written.find('F') != std::string::npos;
  if (in_fahrenheit) return as_written + " (" + temperature_text(temperature, Units::metric) + ")";
  return temperature_text(temperature, Units::metric) + " (" + temperature_text(temperature, Units::imperial) + ")";
}

}  // namespace

std::string_view version() { return CASTPLAN_VERSION; }

std::vector<std::string> standing_cautions(const Profile& profile) {
  std::vector<std::string> out{
      "Not for navigation: depths may be wrong or out of date, and a straight line between two points may cross land "
      "or "
      "shoals.",
      "Wear a life jacket, fastened, and tell someone where you go and when you will be back.",
      "Cold water (15 C, 59 F, and below) can disable a swimmer within minutes: dress for the water, not for the air.",
      "Turn back before the wind builds, and leave the water at the first thunder or lightning.",
      "Keep the fish in the water in a large net, unhook it there with tools at hand, and let it go without delay.",
  };
  for (const std::string& advice : profile.handling) out.push_back(advice);
  if (profile.stop_from) {
    out.push_back("Stop fishing for this species when the water is at " +
                  both_scales(profile.stop_from->value, profile.stop_text) +
                  " or above: fish that are let go may die.");
  }
  out.emplace_back("Local rules and closures, and the advice of licensed people, come before this plan.");
  return out;
}

}  // namespace castplan
