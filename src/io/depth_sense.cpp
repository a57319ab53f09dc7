// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/depth_sense.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

/// Signs decide when nearly all agree; a few on the other side are errors of the instrument or values on land.
constexpr double kNearlyAll = 0.9;

void check_depths(const Signs& found, const std::string& shown) {
  if (found.negative_share() >= kNearlyAll) {
    throw InputError(fmt::format(
        "{}: sense = depth (positive down), but {:.0f} % of the values are negative; if they are heights, say --sense "
        "height (or sense = \"height\" beside the file in the lake file)",
        shown, 100 * found.negative_share()));
  }
  if (found.above_zero > 0 && found.lowest > 60 && found.highest - found.lowest < found.lowest) {
    throw InputError(fmt::format(
        "{}: read as depths, but none is shallower than {:.1f} m; if these are elevations of the floor, say --sense "
        "elevation and --surface \"... m\" (or sense = \"elevation\" beside the file and level.survey)",
        shown, found.lowest));
  }
}

void check_heights(const Signs& found, const std::string& shown) {
  const bool any = found.above_zero + found.below_zero > 0;
  if (any && found.negative_share() < 1 - kNearlyAll) {
    throw InputError(fmt::format(
        "{}: sense = height (negative down), but only {:.0f} % of the values are negative; if they are depths, say "
        "--sense depth (or sense = \"depth\" beside the file in the lake file)",
        shown, 100 * found.negative_share()));
  }
}

double check_elevations(const Signs& found, const DepthSourceOptions& options, const std::string& shown) {
  if (!options.surface) {
    throw InputError(fmt::format(
        "{}: sense = elevation needs the water's surface; say it: --surface \"312.4 m\" (or survey = \"312.4 m\" under "
        "[level])",
        shown));
  }
  const double surface = options.surface->value();
  if (found.lowest >= surface) {
    throw InputError(fmt::format(
        "{}: sense = elevation, but no value lies below the surface of {:.2f} m (the lowest is {:.2f} m); check the "
        "surface, the unit and the sense",
        shown, surface, found.lowest));
  }
  if (surface - found.highest > 20 && surface - found.highest > found.highest - found.lowest) {
    throw InputError(fmt::format(
        "{}: sense = elevation, but every value lies at least {:.0f} m below the surface of {:.2f} m; check the sense, "
        "the unit and the surface",
        shown, surface - found.highest, surface));
  }
  return surface;
}

Sense detected(const Signs& found, const std::string& shown, DepthSource& source) {
  const std::size_t all = found.above_zero + found.below_zero;
  const double share = found.negative_share();
  if (share > 1 - kNearlyAll && share < kNearlyAll) {
    throw InputError(fmt::format(
        "{}: {} of {} values are negative, so that their sense does not show; say it: --sense depth, height or "
        "elevation (or sense = \"...\" beside the file in the lake file)",
        shown, found.below_zero, all));
  }
  if (share >= kNearlyAll) {
    source.sense_from = fmt::format("{} of {} values are negative", found.below_zero, all);
    return Sense::height;
  }
  source.sense_from = fmt::format("{} of {} values are positive", found.above_zero, all);
  return Sense::depth;
}

}  // namespace

void Signs::add(double metres) {
  if (metres == 0) return;
  const bool first = above_zero + below_zero == 0;
  ++(metres < 0 ? below_zero : above_zero);
  lowest = first ? metres : std::min(lowest, metres);
  highest = first ? metres : std::max(highest, metres);
}

double Signs::negative_share() const {
  const std::size_t all = above_zero + below_zero;
  return all == 0 ? 0.0 : static_cast<double>(below_zero) / static_cast<double>(all);
}

ToDepth settle_sense(const Signs& found, const DepthSourceOptions& options, Metres transducer, const std::string& shown,
                     DepthSource& source) {
  source.sense = options.sense ? *options.sense : detected(found, shown, source);
  if (options.sense) source.sense_from = "given";
  const double shift = (options.level_offset + transducer).value();
  switch (source.sense) {
    case Sense::height:
      check_heights(found, shown);
      return {-1.0, shift};
    case Sense::elevation:
      // an elevation does not depend on the water's level
      return {-1.0, check_elevations(found, options, shown) + transducer.value()};
    case Sense::depth:
      check_depths(found, shown);
      break;
  }
  return {1.0, shift};
}

}  // namespace castplan
