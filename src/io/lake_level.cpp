// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/lake_level.hpp"

#include <fmt/format.h>

#include <cmath>

namespace castplan {
namespace {

/// Figures given in feet and in metres agree when they are this close.
constexpr double kSame = 0.005;

bool differ(Metres a, Metres b) { return std::fabs((a - b).value()) > kSame; }

}  // namespace

void settle_level(LakeFile& file, const std::function<void(std::string_view, const std::string&)>& fail) {
  RasterOptions& raster = file.raster;
  const LakeFile::Level& level = file.level;
  std::optional<Metres> survey = level.survey;
  if (raster.surface && survey && differ(*raster.surface, *survey)) {
    fail("survey",
         fmt::format("is {:.2f} m, but depth.surface is {:.2f} m; they are the same surface, so give one of them",
                     survey->value(), raster.surface->value()));
  }
  if (!survey) survey = raster.surface;
  if (level.offset && level.today && survey && differ(*level.today - *survey, *level.offset)) {
    fail("offset", fmt::format("is {:.2f} m, but today less the survey is {:.2f} m; give one of them",
                               level.offset->value(), (*level.today - *survey).value()));
  }
  if (level.today && !survey && !level.offset && raster.sense != Sense::elevation) {
    fail("today",
         "needs the level when surveyed beside it: survey = \"... m\", or offset = \"-0.6 m\" instead of both");
  }
  if (level.today && !survey && level.offset) survey = *level.today - *level.offset;
  Metres moved = level.offset.value_or(Metres(0));
  if (level.today && survey) moved = *level.today - *survey;
  raster.survey_surface = survey;
  if (level.today) {
    raster.surface = level.today;
  } else if (survey) {
    raster.surface = *survey + moved;
  }
  raster.level_offset = moved;
}

std::string surface_text(const LakeFile& file) {
  const double moved = file.raster.level_offset.value();
  std::string text = "depths in metres below ";
  if (std::fabs(moved) >= kSame) {
    text +=
        fmt::format("today's surface, {:.2f} m {} the surveyed one", std::fabs(moved), moved < 0 ? "under" : "over");
    if (file.raster.surface) text += fmt::format(" (today {:.2f} m)", file.raster.surface->value());
    return text;
  }
  if (file.raster.surface) return text + fmt::format("a surface of {:.2f} m", file.raster.surface->value());
  return text + "the surface when surveyed (level not given)";
}

}  // namespace castplan
