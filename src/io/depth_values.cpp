// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "castplan/geo/error.hpp"
#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"
#include "io/raster_values.hpp"

namespace castplan {
namespace {

/// As many values as are looked at together; each lane keeps its own extremes, so that none waits for the one before.
constexpr int kLanes = 16;

struct Lanes {
  float low[kLanes], high[kLanes], lowest[kLanes], highest[kLanes];
  int known[kLanes], positive[kLanes], negative[kLanes];
};

CASTPLAN_HOT void tally_lanes(const Metres32* values, int count, Lanes& lanes) {
  for (int i = 0; i < count; i += kLanes) {
    for (int k = 0; k < kLanes; ++k) {
      // every comparison with NaN is false
      const float v = values[i + k].value();
      const float off = v == 0 ? std::numeric_limits<float>::quiet_NaN() : v;
      lanes.known[k] += v == v ? 1 : 0;
      lanes.positive[k] += v > 0 ? 1 : 0;
      lanes.negative[k] += v < 0 ? 1 : 0;
      lanes.low[k] = v < lanes.low[k] ? v : lanes.low[k];
      lanes.high[k] = v > lanes.high[k] ? v : lanes.high[k];
      lanes.lowest[k] = off < lanes.lowest[k] ? off : lanes.lowest[k];
      lanes.highest[k] = off > lanes.highest[k] ? off : lanes.highest[k];
    }
  }
}

void tally_row(const Metres32* values, int count, ValueTally& out) {
  constexpr float kMost = std::numeric_limits<float>::infinity();
  Lanes lanes{};
  for (int k = 0; k < kLanes; ++k) {
    lanes.low[k] = lanes.lowest[k] = kMost;
    lanes.high[k] = lanes.highest[k] = -kMost;
  }
  const int whole = count / kLanes * kLanes;
  tally_lanes(values, whole, lanes);
  std::array<Metres32, kLanes> rest;
  rest.fill(Metres32(std::numeric_limits<float>::quiet_NaN()));
  std::copy(values + whole, values + count, rest.begin());
  tally_lanes(rest.data(), kLanes, lanes);
  for (int k = 0; k < kLanes; ++k) {
    out.known += lanes.known[k];
    out.positive += lanes.positive[k];
    out.negative += lanes.negative[k];
    out.low = std::min(out.low, static_cast<double>(lanes.low[k]));
    out.high = std::max(out.high, static_cast<double>(lanes.high[k]));
    out.lowest = std::min(out.lowest, static_cast<double>(lanes.lowest[k]));
    out.highest = std::max(out.highest, static_cast<double>(lanes.highest[k]));
  }
}

bool positive_on_border(const Grid<Metres32>& metres) {
  const auto positive = [](Metres32 cell) { return cell.value() > 0; };
  for (int r = 0; r < metres.rows(); ++r) {
    const auto row = metres.row(r);
    const bool whole = r == 0 || r == metres.rows() - 1;
    if (whole ? std::any_of(row.begin(), row.end(), positive) : positive(row.front()) || positive(row.back()))
      return true;
  }
  return false;
}

/// Mostly negative values are heights, unless the positive ones are a lake well inside land of known height.
void check_depths(const ValueTally& found, const Grid<Metres32>& metres, const std::string& where) {
  const double share = found.negative_share();
  if (share > 0.9 || (share > 0.5 && positive_on_border(metres))) {
    throw InputError(fmt::format(
        "{}: sense = depth (positive down), but {:.0f} % of the values are negative; if they are heights, say "
        "--sense height (or sense = \"height\" under [depth]); if most of it is land, cut the lake out of it",
        where, 100 * share));
  }
  if (found.positive + found.negative > 0 && found.lowest > 60 && found.highest - found.lowest < found.lowest) {
    throw InputError(fmt::format(
        "{}: sense = depth, but no cell is shallower than {:.1f} m; if these are elevations of the floor, say --sense "
        "elevation and --surface \"... m\" (or sense and surface under [depth])",
        where, found.lowest));
  }
}

void check_heights(const ValueTally& found, const std::string& where) {
  if (found.positive + found.negative > 0 && found.negative_share() < 0.1) {
    throw InputError(
        fmt::format("{}: sense = height (negative down), but only {:.0f} % of the values are negative; if "
                    "they are depths, say --sense depth; if elevations, --sense elevation (or sense = "
                    "\"...\" under [depth])",
                    where, 100 * found.negative_share()));
  }
}

void check_elevations(const ValueTally& found, double surface, const std::string& where) {
  if (found.known > 0 && found.low >= surface) {
    throw InputError(
        fmt::format("{}: sense = elevation, but no cell lies below the surface of {:.2f} m (the lowest is "
                    "{:.2f} m); check --surface (surface under [depth], today under [level]) and the unit",
                    where, surface, found.low));
  }
  if (surface - found.high > 20 && surface - found.high > found.high - found.low) {
    throw InputError(
        fmt::format("{}: sense = elevation, but every cell lies at least {:.0f} m below the surface of "
                    "{:.2f} m; check the sense, the unit and --surface",
                    where, surface - found.high, surface));
  }
}

void check_sense(const Grid<Metres32>& metres, const RasterOptions& options, const std::string& where) {
  const ValueTally found = tally(metres);
  if (found.known == 0) {
    throw InputError(fmt::format("{}: holds nothing but no data; expected depths", where));
  }
  switch (options.sense) {
    case Sense::depth:
      check_depths(found, metres, where);
      break;
    case Sense::height:
      check_heights(found, where);
      break;
    case Sense::elevation:
      check_elevations(found, options.surface->value(), where);
      break;
  }
}

/// The level moves every depth alike. Cells of exactly 0 in a file without any height on land are land of a height
/// that nobody knows: a rising lake must not flood them.
void move_level(Grid<Metres32>& depth, double offset, const std::string& where, std::vector<std::string>& notes) {
  if (offset == 0) return;
  bool heights = false;
  bool zeros = false;
  for (const Metres32 cell : depth.cells()) {
    heights = heights || cell.value() < 0;
    zeros = zeros || cell.value() == 0;
  }
  const bool keep_zeros = offset > 0 && !heights;
  for (Metres32& cell : depth.cells()) {
    if (keep_zeros && cell.value() == 0) continue;
    cell = Metres32(static_cast<float>(static_cast<double>(cell.value()) + offset));
  }
  if (keep_zeros && zeros) {
    notes.push_back(fmt::format(
        "{}: gives no heights on land, so the shore stays where it was surveyed though the water is {:.2f} m higher",
        where, offset));
  }
}

}  // namespace

ValueTally tally(const Grid<Metres32>& values) {
  std::vector<ValueTally> of_band(static_cast<std::size_t>(band_count(values.rows())));
  sweep(values.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      tally_row(values.row(row).data(), values.cols(), of_band[static_cast<std::size_t>(band.number)]);
    }
  });
  ValueTally all;
  for (const ValueTally& part : of_band) {
    all.known += part.known;
    all.positive += part.positive;
    all.negative += part.negative;
    all.low = std::min(all.low, part.low);
    all.high = std::max(all.high, part.high);
    all.lowest = std::min(all.lowest, part.lowest);
    all.highest = std::max(all.highest, part.highest);
  }
  return all;
}

double metres_per_value(GDALRasterBandH band, const RasterOptions& options, const std::string& where,
                        std::vector<std::string>& notes) {
  const std::string stated = GDALGetRasterUnitType(band);
  if (stated.empty() && !options.unit) {
    throw InputError(
        fmt::format("{}: no depth unit in the file; say which: --unit m or --unit ft (or unit = \"m\" under "
                    "[depth])",
                    where));
  }
  std::optional<DepthUnit> own;
  try {
    if (!stated.empty()) own = parse_depth_unit(stated);
  } catch (const InputError& error) {
    if (!options.unit) {
      throw InputError(
          fmt::format("{}: the file's depth unit is not known ({}); say which: --unit m or --unit ft (or "
                      "unit = \"m\" under [depth])",
                      where, error.what()));
    }
  }
  if (!options.unit) return metres_per(*own);
  if (!stated.empty() && (!own || *own != *options.unit)) {
    notes.push_back(fmt::format("{}: the file states the unit {}, the one given is used instead ({} m)", where, stated,
                                metres_per(*options.unit)));
  }
  return metres_per(*options.unit);
}

void to_depths(Grid<Metres32>& values, GDALRasterBandH band, double metres_per, const RasterOptions& options,
               const std::string& where, std::vector<std::string>& notes) {
  if (options.sense == Sense::elevation && !options.surface) {
    throw InputError(
        fmt::format("{}: sense = elevation needs the water's surface; say it: --surface \"312.4 m\" (or "
                    "surface = \"312.4 m\" under [depth])",
                    where));
  }
  const double scale = GDALGetRasterScale(band, nullptr);
  const double shift = GDALGetRasterOffset(band, nullptr);
  if (scale != 1 || shift != 0 || metres_per != 1) {
    sweep(values.rows(), [&](const Band& part) {
      for (int row = part.first; row < part.last; ++row) {
        for (Metres32& cell : values.row(row)) {
          cell = Metres32(static_cast<float>((static_cast<double>(cell.value()) * scale + shift) * metres_per));
        }
      }
    });
  }
  check_sense(values, options, where);
  if (options.sense == Sense::elevation) {
    const double surface = options.surface->value();
    for (Metres32& cell : values.cells()) {
      cell = Metres32(static_cast<float>(surface - static_cast<double>(cell.value())));
    }
  } else {
    if (options.sense == Sense::height) {
      for (Metres32& cell : values.cells()) cell = -cell;
    }
    move_level(values, options.level_offset.value(), where, notes);
  }
  const auto cells = values.cells();
  if (std::none_of(cells.begin(), cells.end(), [](Metres32 cell) { return cell.value() > 0; })) {
    throw InputError(
        fmt::format("{}: no cell holds water (every known one is at or above the surface); check the sense, "
                    "the unit and the level",
                    where));
  }
}

}  // namespace castplan
