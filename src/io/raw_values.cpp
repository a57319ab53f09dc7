// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>

#include "castplan/geo/error.hpp"
#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"
#include "io/block_reader.hpp"
#include "io/gdal.hpp"
#include "io/raster_values.hpp"

namespace castplan {
namespace {

constexpr float kNaN = std::numeric_limits<float>::quiet_NaN();
/// No lake is that deep in any unit; netCDF's 9.97e36 and the -3.4e38 of many programs lie beyond.
constexpr float kAlwaysFiller = 1e20F;
/// What programs write for "no data" (common practice, no source). Only taken as such far outside all other values.
constexpr float kFillers[] = {-999.0F,  -9999.0F, -99999.0F, -32768.0F, -32767.0F, -1e6F,
                              32767.0F, 9999.0F,  65535.0F,  99999.0F,  1e6F};

std::optional<float> declared_nodata(GDALRasterBandH band) {
  int stated = 0;
  double value = 0;
  switch (GDALGetRasterDataType(band)) {
    case GDT_Int64:
      value = static_cast<double>(GDALGetRasterNoDataValueAsInt64(band, &stated));
      break;
    case GDT_UInt64:
      value = static_cast<double>(GDALGetRasterNoDataValueAsUInt64(band, &stated));
      break;
    default:
      value = GDALGetRasterNoDataValue(band, &stated);
  }
  if (stated == 0) return std::nullopt;
  return static_cast<float>(value);
}

/// Cells that a mask stored with the file (not a no-data value) rules out.
void apply_mask(GDALRasterBandH band, Grid<Metres32>& out, const std::string& where) {
  if ((GDALGetMaskFlags(band) & GMF_PER_DATASET) == 0) return;
  GDALRasterBandH mask = GDALGetMaskBand(band);
  std::vector<unsigned char> row(static_cast<std::size_t>(out.cols()));
  const GdalMessages messages;
  for (int r = 0; r < out.rows(); ++r) {
    if (GDALRasterIO(mask, GF_Read, 0, r, out.cols(), 1, row.data(), out.cols(), 1, GDT_Byte, 0, 0) != CE_None) {
      throw InputError(fmt::format("{}: its mask cannot be read{}", where, messages.in_brackets()));
    }
    auto cells = out.row(r);
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (row[c] == 0) cells[c] = Metres32(kNaN);
    }
  }
}

bool is_listed(float value) { return std::find(std::begin(kFillers), std::end(kFillers), value) != std::end(kFillers); }

/// What the first look at the cells found.
struct Seen {
  std::map<float, long long> listed;  ///< cells that hold one of the usual fillers
  float lowest = std::numeric_limits<float>::infinity();
  float highest = -std::numeric_limits<float>::infinity();
  long long infinite = 0;
  long long huge = 0;
};

void clear_nodata(std::span<Metres32> values, std::optional<float> nodata, Seen& seen) {
  for (Metres32& cell : values) {
    const float v = cell.value();
    if (std::isnan(v)) continue;
    if (nodata && (v == *nodata || (std::fabs(v) >= kAlwaysFiller && std::fabs(*nodata) >= kAlwaysFiller))) {
      cell = Metres32(kNaN);
    } else if (std::fabs(v) >= kAlwaysFiller) {
      ++(std::isinf(v) ? seen.infinite : seen.huge);
      cell = Metres32(kNaN);
    } else if (std::fabs(v) >= 999.0F && is_listed(v)) {
      ++seen.listed[v];
    } else {
      seen.lowest = std::min(seen.lowest, v);
      seen.highest = std::max(seen.highest, v);
    }
  }
}

/// Where no value of a row is so large that it could be a filler, only the no-data value is to be cleared. False where
/// one is; then nothing was changed.
CASTPLAN_HOT bool clear_plain_row(Metres32* values, int count, float nodata, float& lowest, float& highest) {
  int large = 0;
  float low = lowest, high = highest;
  for (int i = 0; i < count; ++i) {
    const float v = values[i].value() == nodata ? kNaN : values[i].value();
    large |= static_cast<int>(std::fabs(v) >= 999.0F);  // false for NaN, as all comparisons
    low = v < low ? v : low;
    high = v > high ? v : high;
  }
  if (large != 0) return false;
  lowest = low;
  highest = high;
  for (int i = 0; i < count; ++i) values[i] = Metres32(values[i].value() == nodata ? kNaN : values[i].value());
  return true;
}

Seen clear_nodata(Grid<Metres32>& values, std::optional<float> nodata) {
  std::vector<Seen> of_band(static_cast<std::size_t>(band_count(values.rows())));
  sweep(values.rows(), [&](const Band& band) {
    Seen& seen = of_band[static_cast<std::size_t>(band.number)];
    for (int row = band.first; row < band.last; ++row) {
      const auto cells = values.row(row);
      if (clear_plain_row(cells.data(), values.cols(), nodata.value_or(kNaN), seen.lowest, seen.highest)) continue;
      clear_nodata(cells, nodata, seen);
    }
  });
  Seen all;
  for (const Seen& seen : of_band) {
    for (const auto& [value, count] : seen.listed) all.listed[value] += count;
    all.lowest = std::min(all.lowest, seen.lowest);
    all.highest = std::max(all.highest, seen.highest);
    all.infinite += seen.infinite;
    all.huge += seen.huge;
  }
  return all;
}

/// Far outside: further from the other values than they lie apart, and at least 100.
bool far_outside(float value, const Seen& seen) {
  if (seen.lowest > seen.highest) return true;
  const float gap = std::max(seen.highest - seen.lowest, 100.0F);
  return value < seen.lowest - gap || value > seen.highest + gap;
}

/// All that is no depth and not declared as such, usual fillers first; those among them are cleared here.
std::vector<Filler> clear_fillers(Grid<Metres32>& values, const Seen& seen) {
  std::vector<Filler> fillers;
  for (const auto& [value, count] : seen.listed) {
    if (far_outside(value, seen)) fillers.push_back({value, count});
  }
  if (!fillers.empty()) {
    for (Metres32& cell : values.cells()) {
      const auto same = [&cell](const Filler& filler) { return filler.value == cell.value(); };
      if (std::any_of(fillers.begin(), fillers.end(), same)) cell = Metres32(kNaN);
    }
  }
  if (seen.infinite > 0) fillers.push_back({std::numeric_limits<float>::infinity(), seen.infinite});
  if (seen.huge > 0) fillers.push_back({kAlwaysFiller, seen.huge});
  return fillers;
}

std::string filler_note(const Filler& filler, const std::string& where) {
  if (std::isinf(filler.value)) {
    return fmt::format("{}: {} infinite cells are taken as no data", where, filler.cells);
  }
  if (filler.value == kAlwaysFiller) {
    return fmt::format("{}: {} cells beyond 1e20 are taken as no data (the file does not declare it)", where,
                       filler.cells);
  }
  return fmt::format("{}: {} cells of {} are taken as no data (the file does not declare it)", where, filler.cells,
                     filler.value);
}

}  // namespace

Grid<Metres32> raw_values(GDALRasterBandH band, const Frame& frame, const RasterOptions& options,
                          const std::string& where, std::vector<std::string>& notes, std::vector<Filler>* cleared) {
  Grid<Metres32> values(frame);
  read_blocks(band, values, where);
  apply_mask(band, values, where);
  std::optional<float> nodata = declared_nodata(band);
  if (options.nodata) {
    const auto wanted = static_cast<float>(*options.nodata);
    if (nodata && *nodata != wanted && !(std::isnan(*nodata) && std::isnan(wanted))) {
      notes.push_back(
          fmt::format("{}: the file declares no data as {}; nodata = {} is not used", where, *nodata, wanted));
    }
    if (!nodata) nodata = wanted;
  }
  const Seen seen = clear_nodata(values, nodata);
  const std::vector<Filler> fillers = clear_fillers(values, seen);
  if (cleared != nullptr) {
    *cleared = fillers;
  } else {
    for (const Filler& filler : fillers) notes.push_back(filler_note(filler, where));
  }
  return values;
}

}  // namespace castplan
