// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "castplan/geo/quantity_text.hpp"
#include "season/reach.hpp"
#include "season/water.hpp"

namespace castplan {
namespace {

// At most one decimal, and none where it is 0.
std::string tenths(double value) {
  const double rounded = std::round(value * 10.0) / 10.0;
  return fmt::format("{:.{}f}", rounded + 0.0, rounded == std::round(rounded) ? 0 : 1);
}

std::string whole(double value) { return fmt::format("{:.0f}", value + 0.0); }

// "8 to 15.6 C (46 to 60 F)", "below 5 C (41 F)", "23.9 C (75 F) and above"
std::string range_text(const Phase::Interval& interval) {
  const bool from = std::isfinite(interval.from.value());
  const bool to = std::isfinite(interval.to.value());
  const std::string from_c = tenths(interval.from.value());
  const std::string to_c = tenths(interval.to.value());
  const std::string from_f = whole(to_fahrenheit(interval.from));
  const std::string to_f = whole(to_fahrenheit(interval.to));
  if (from && to) return fmt::format("{} to {} C ({} to {} F)", from_c, to_c, from_f, to_f);
  if (to) return fmt::format("below {} C ({} F)", to_c, to_f);
  if (from) return fmt::format("{} C ({} F) and above", from_c, from_f);
  return "any temperature";
}

bool both_alike(const Phase& phase) {
  return phase.rising && phase.falling && phase.rising->from == phase.falling->from &&
         phase.rising->to == phase.falling->to;
}

std::string of_range(const Phase::Interval& interval) {
  return fmt::format("{}{}", std::isfinite(interval.from.value()) ? "of " : "", range_text(interval));
}

}  // namespace

std::string reading_text(Celsius temperature) {
  return fmt::format("{} C ({} F)", tenths(temperature.value()), tenths(to_fahrenheit(temperature)));
}

std::string stop_line_text(const Profile& profile) {
  const Celsius stop = profile.stop_from->value;
  const char last = profile.stop_text.empty() ? ' ' : profile.stop_text.back();
  if (last == 'F' || last == 'f') return fmt::format("{} ({} C)", profile.stop_text, tenths(stop.value()));
  return reading_text(stop);
}

std::string water_text(const Phase& phase, std::optional<Trend> trend) {
  if (both_alike(phase)) return fmt::format("water {}, rising or falling", of_range(*phase.rising));
  if (trend && interval_of(phase, *trend)) {
    return fmt::format("{} water {}", *trend == Trend::rising ? "rising" : "falling",
                       of_range(*interval_of(phase, *trend)));
  }
  if (phase.rising && phase.falling) {
    return fmt::format("rising water {} or falling water {}", of_range(*phase.rising), of_range(*phase.falling));
  }
  return phase.rising ? fmt::format("rising water {}", of_range(*phase.rising))
                      : fmt::format("falling water {}", of_range(*phase.falling));
}

std::string phase_range_text(const Phase& phase) {
  if (both_alike(phase)) return fmt::format("rising or falling {}", range_text(*phase.rising));
  std::string text;
  if (phase.rising) text = fmt::format("rising {}", range_text(*phase.rising));
  if (phase.falling) text += fmt::format("{}falling {}", text.empty() ? "" : ", ", range_text(*phase.falling));
  return text;
}

}  // namespace castplan
