// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <gdal_priv.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/geo/geodesic.hpp"
#include "io/gdal.hpp"
#include "io/inspect_depths.hpp"
#include "io/inspect_parts.hpp"
#include "io/pixel_map.hpp"
#include "io/raster_values.hpp"

namespace castplan {
namespace {

constexpr int kLeastCells = 3;

/// Numbers that are no depths and that the file does not declare.
void fillers_found(const std::vector<Filler>& fillers, FileFacts& facts, bool declared, Inspection& out) {
  for (const Filler& filler : fillers) {
    const bool single = std::isfinite(filler.value) && std::fabs(filler.value) < 1e20F;
    if (single && !declared && !facts.raster->undeclared) facts.raster->undeclared = static_cast<double>(filler.value);
    const std::string value = single                     ? fmt::format("exactly {}", filler.value)
                              : std::isinf(filler.value) ? "infinity"
                                                         : "more than 1e20 in size";
    out.findings.push_back(
        {Severity::warning, "undeclared-nodata",
         fmt::format("{}: {} cells are {}, which is no depth; they are taken as no data, though the file does not "
                     "declare it",
                     facts.name, filler.cells, value),
         single && !declared ? fmt::format("nodata = {} under [depth]", filler.value) : ""});
  }
}

void cell_size(const PixelMap& map, const Projection& projection, FileFacts& facts) {
  const double unit = projection.metres_per_unit();
  const XY middle{facts.raster->cols / 2.0, facts.raster->rows / 2.0};
  const auto place = [&](XY pixel) { return projection.to_lonlat(map.to_plane(pixel) * unit); };
  facts.raster->cell_width = geodesic(place(middle), place(middle + XY{1, 0})).distance;
  facts.raster->cell_height = geodesic(place(middle), place(middle + XY{0, 1})).distance;
}

void place_of(GDALDataset& dataset, const RasterOptions& options, FileFacts& facts, Inspection& out,
              std::optional<Placed>& placed) {
  const OGRSpatialReference* reference = dataset.GetSpatialRef();
  if (reference == nullptr || reference->IsEmpty()) reference = dataset.GetGCPSpatialRef();
  auto projection = inspect_crs(reference, options.crs, facts, out);
  try {
    const PixelMap map = PixelMap::of(&dataset, facts.name);
    if (!projection) return;
    const XY size{static_cast<double>(facts.raster->cols), static_cast<double>(facts.raster->rows)};
    inspect_place(
        *projection,
        [&](XY share) {
          return map.to_plane({share.x * size.x, share.y * size.y});
        },
        facts, out);
    if (!facts.centre) return;
    cell_size(map, *projection, facts);
    placed.emplace(Placed{*projection, map});
  } catch (const InputError& error) {
    out.findings.push_back(
        {Severity::error, "no-georeference", error.what(), "gdal_translate -a_ullr, or a world file"});
  }
}

/// What keeps the band from being looked at; read_depth_raster has the words for it.
bool readable(GDALDataset& dataset, int band) {
  if (band < 1 || band > dataset.GetRasterCount()) return false;
  return GDALDataTypeIsComplex(dataset.GetRasterBand(band)->GetRasterDataType()) == 0 &&
         dataset.GetRasterXSize() >= kLeastCells && dataset.GetRasterYSize() >= kLeastCells;
}

bool any_error(const Inspection& out, std::size_t from) {
  return std::any_of(out.findings.begin() + static_cast<std::ptrdiff_t>(from), out.findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::error; });
}

/// The reader itself has the last word: what it refuses, `scout` refuses.
void try_reading(const RasterOptions& options, Inspection& out) {
  try {
    const DepthRaster raster = read_depth_raster(options);
    if (!raster.resampled) return;
    out.findings.push_back({Severity::note, "resampled",
                            fmt::format("{}: is brought to square cells on a true-scale plane when read, because {}",
                                        options.shown, raster.why_resampled),
                            ""});
  } catch (const InputError& error) {
    out.findings.push_back({Severity::error, "unusable", error.what(), ""});
  }
}

void bands_found(GDALDataset& dataset, const RasterOptions& options, const FileFacts& facts, Inspection& out) {
  const int count = dataset.GetRasterCount();
  if (count == 1) return;
  std::string names;
  for (int i = 1; i <= count; ++i) {
    const std::string name = dataset.GetRasterBand(i)->GetDescription();
    if (!name.empty()) names += fmt::format("{}{} {}", names.empty() ? ": " : ", ", i, name);
  }
  out.findings.push_back({Severity::note, "several-bands",
                          fmt::format("{}: has {} bands{}; band {} is read", facts.name, count, names, options.band),
                          "band = N under [depth]"});
}

void look_at(GDALDataset& dataset, const RasterOptions& options, std::optional<Sense> sense, FileFacts& facts,
             Inspection& out) {
  facts.raster.emplace();
  facts.raster->cols = dataset.GetRasterXSize();
  facts.raster->rows = dataset.GetRasterYSize();
  bands_found(dataset, options, facts, out);
  std::optional<Placed> placed;
  place_of(dataset, options, facts, out, placed);
  GDALRasterBand* band = dataset.GetRasterBand(options.band);
  const Frame frame{{}, Metres(1), facts.raster->rows, facts.raster->cols};
  std::vector<std::string> notes;
  std::vector<Filler> fillers;
  Grid<Metres32> values = raw_values(band, frame, options, options.shown, notes, &fillers);
  int declared = 0;
  static_cast<void>(band->GetNoDataValue(&declared));
  fillers_found(fillers, facts, declared != 0 || options.nodata.has_value(), out);
  for (const std::string& note : notes) out.findings.push_back({Severity::note, "nodata-kept", note, ""});
  const DepthQuestion question{
      options, sense, band->GetUnitType(), band->GetDescription(), band->GetScale(nullptr), band->GetOffset(nullptr)};
  inspect_depths(std::move(values), question, placed, facts, out);
}

}  // namespace

void inspect_raster(const RasterOptions& given, std::optional<Sense> sense, const std::string& key, Inspection& out) {
  RasterOptions options = given;
  if (options.shown.empty()) options.shown = file_name(options.path);
  const std::size_t before = out.findings.size();
  {
    const Dataset opened = open_dataset(options.path, options.shown, DataKind::raster);
    const GdalMessages quiet;
    auto& dataset = *static_cast<GDALDataset*>(opened.get());
    FileFacts facts;
    facts.name = options.shown;
    facts.path = options.path;
    facts.key = key;
    facts.kind = "raster";
    facts.format = dataset.GetDriver()->GetMetadataItem(GDAL_DMD_LONGNAME);
    if (!readable(dataset, options.band)) {
      static_cast<void>(read_depth_raster(options));  // says why not
      throw InputError(fmt::format("{}: holds no band of depths", options.shown));
    }
    look_at(dataset, options, sense, facts, out);
    options.sense = facts.raster->sense.value_or(Sense::depth);
    out.files.push_back(std::move(facts));
  }
  // a lake file is tried as a whole
  if (key.empty() && !any_error(out, before)) try_reading(options, out);
}

void inspect_raster_file(const InspectOptions& options, Inspection& out) {
  RasterOptions raster;
  raster.path = options.path;
  raster.unit = options.unit;
  raster.surface = options.surface;
  raster.crs = options.crs;
  inspect_raster(raster, options.sense, "", out);
  if (options.shoreline.empty()) return;
  inspect_vector({options.shoreline, "", options.crs}, "shoreline.file", out);
  inspect_overlap(out.files.front(), out.files.back(), out);
}

}  // namespace castplan
