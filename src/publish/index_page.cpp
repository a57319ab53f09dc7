// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/write/html_text.hpp"
#include "castplan/write/plain_text.hpp"
#include "publish/lake_files.hpp"
#include "publish/site_text.hpp"

namespace castplan {
namespace {

constexpr double kMapWidth = 640.0, kMargin = 60.0;
constexpr double kRadians = 3.14159265358979323846 / 180.0;
constexpr double kLeastSpan = 0.05;  // degrees: one lake alone still has a map about it

/// Longitudes counted on from the edge of the widest gap, so that lakes on both sides of 180 degrees stand together.
std::vector<double> longitudes(const std::vector<SiteLake>& lakes) {
  std::vector<double> sorted, out;
  for (const SiteLake& site : lakes) sorted.push_back(site.lake.centre.lon.degrees);
  std::sort(sorted.begin(), sorted.end());
  double begin = sorted.front(), widest = sorted.front() + 360.0 - sorted.back();
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    if (sorted[i] - sorted[i - 1] > widest) {
      widest = sorted[i] - sorted[i - 1];
      begin = sorted[i];
    }
  }
  for (const SiteLake& site : lakes) {
    const double lon = site.lake.centre.lon.degrees;
    out.push_back(lon < begin ? lon + 360.0 : lon);
  }
  return out;
}

struct Dot {
  double x, y;
};

struct Overview {
  std::vector<Dot> dots;
  double height;
  double units_a_km;
};

// A round length of about a fifth of the width.
std::string scale_svg(const Overview& overview) {
  const double wanted = kMapWidth / 5.0 / overview.units_a_km;
  double km = std::pow(10.0, std::floor(std::log10(wanted)));
  for (const double times : {5.0, 2.0}) {
    if (km * times <= wanted) {
      km *= times;
      break;
    }
  }
  const double width = km * overview.units_a_km, y = overview.height - 24.0;
  return fmt::format(
      "<path class=\"scale\" d=\"M16 {0:.0f}v8h{1:.0f}v-8\"/><text class=\"dot-name\" x=\"{2:.0f}\" "
      "y=\"{3:.0f}\">{4:g} "
      "km</text>\n",
      y, width, 24.0 + width, y + 9.0, km);
}

// Degrees of longitude shrink with latitude; nothing else of a projection is needed for dots.
Overview overview_of(const std::vector<SiteLake>& lakes) {
  const std::vector<double> lons = longitudes(lakes);
  double low = 90.0, high = -90.0;
  for (const SiteLake& site : lakes) {
    low = std::min(low, site.lake.centre.lat.degrees);
    high = std::max(high, site.lake.centre.lat.degrees);
  }
  const double shrink = std::max(0.02, std::cos((low + high) / 2.0 * kRadians));
  const auto [west, east] = std::minmax_element(lons.begin(), lons.end());
  const double wide = std::max(kLeastSpan, (*east - *west) * shrink), tall = std::max(kLeastSpan, high - low);
  const double scale = std::min((kMapWidth - 2.0 * kMargin) / wide, 480.0 / tall);
  Overview out{{}, std::max(180.0, (high - low) * scale + 2.0 * kMargin), scale / 111.2};
  const double middle_x = (*west + *east) / 2.0, middle_y = (low + high) / 2.0;
  for (std::size_t i = 0; i < lakes.size(); ++i) {
    out.dots.push_back({kMapWidth / 2.0 + (lons[i] - middle_x) * shrink * scale,
                        out.height / 2.0 - (lakes[i].lake.centre.lat.degrees - middle_y) * scale});
  }
  return out;
}

// A name stands beside its dot where no other dot or name is in the way; the number is on the list too.
std::string dots_svg(const std::vector<SiteLake>& lakes, const Overview& overview) {
  struct Box {
    double left, top, right, bottom;
  };
  std::vector<Box> taken;
  for (const Dot& dot : overview.dots) taken.push_back({dot.x - 14, dot.y - 14, dot.x + 14, dot.y + 14});
  std::string out;
  for (std::size_t i = 0; i < lakes.size(); ++i) {
    const Dot dot = overview.dots[i];
    const std::string name = shortened(lakes[i].lake.name, 28);
    const double wide = 9.5 * static_cast<double>(name.size());
    const bool left = dot.x + 20 + wide > kMapWidth;
    const Box box{left ? dot.x - 20 - wide : dot.x + 18, dot.y - 10, left ? dot.x - 18 : dot.x + 20 + wide, dot.y + 10};
    const bool free =
        box.left >= 0.0 && std::none_of(taken.begin(), taken.end(), [&](const Box& other) {
          return box.left < other.right && other.left < box.right && box.top < other.bottom && other.top < box.bottom;
        });
    out += fmt::format(
        "<circle class=\"dot{0}\" cx=\"{1:.0f}\" cy=\"{2:.0f}\" r=\"13\"/><text class=\"dot-number{0}\" "
        "x=\"{1:.0f}\" y=\"{3:.0f}\">{4}</text>\n",
        lakes[i].lake.stopped() ? " stopped" : "", dot.x, dot.y, dot.y + 5, i + 1);
    if (!free) continue;
    taken.push_back(box);
    out += fmt::format("<text class=\"dot-name\" x=\"{:.0f}\" y=\"{:.0f}\" text-anchor=\"{}\">{}</text>\n",
                       left ? dot.x - 20 : dot.x + 20, dot.y + 6, left ? "end" : "start", escaped(name));
  }
  return out;
}

std::string rows_html(const std::vector<SiteLake>& lakes) {
  std::string out;
  for (std::size_t i = 0; i < lakes.size(); ++i) {
    const PublicLake& lake = lakes[i].lake;
    std::string about = area_text(lake.area_m2);
    if (lake.max_depth_m) about += ", deepest " + depth_text(lake.max_depth_m);
    out += fmt::format(
        "<li class=\"lake\"><span class=\"number\">{}</span> <div><a href=\"{}\">{}</a><p>{}</p><p><span "
        "class=\"state{}\">{}</span></p><p class=\"small\">{}</p></div></li>\n",
        i + 1, lake_page_name(lake), name_html(lake.name), about,
        lake.stopped()            ? " stop"
        : lake.level == "caution" ? " care"
                                  : "",
        state_text(lake, lakes[i].exact_or_none()), escaped(lake.temperatures));
  }
  return out;
}

}  // namespace

void add_index(SiteParts& parts, const std::vector<SiteLake>& lakes, const PublishOptions& options) {
  const Overview overview = overview_of(lakes);
  std::vector<std::string> cautions;
  for (const SiteLake& site : lakes) {
    for (const std::string& caution : site.lake.cautions) {
      if (std::find(cautions.begin(), cautions.end(), caution) == cautions.end()) cautions.push_back(caution);
    }
  }
  const std::string page =
      filled(page_part("index.html"),
             {{"policy", std::string(kPolicy)},
              {"css", page_part("site.css")},
              {"mark", options.exact
                           ? fmt::format("<p class=\"mark exact\"><strong>EXACT PLACES.</strong> The pages of this "
                                         "site show where to cast, to everybody who can open them.</p>\n")
                           : fmt::format("<p class=\"mark\"><strong>Coarse places.</strong> Spots stand as counts in "
                                         "squares of at least {}.</p>\n",
                                         size_text(options.coarsen))},
              {"count", fmt::format("{} lake{}", lakes.size(), lakes.size() == 1 ? "" : "s")},
              {"width", fmt::format("{:.0f}", kMapWidth)},
              {"height", fmt::format("{:.0f}", overview.height)},
              {"dots", dots_svg(lakes, overview) + scale_svg(overview)},
              {"lakes", rows_html(lakes)},
              {"cautions", list_html(cautions)},
              {"js", page_part("search.js")},
              {"program", "castplan " + std::string(version())}});
  parts.files.push_back({"index.html", page});
}

}  // namespace castplan
