// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/publish/site.hpp"
#include "publish/leak_check.hpp"
#include "publish/public_lake.hpp"

namespace castplan {

/// A lake as the site tells it.
struct SiteLake {
  PublicLake lake;
  std::optional<ExactPlaces> exact;  ///< with --exact alone
  std::string updated;               ///< ISO 8601
  [[nodiscard]] const ExactPlaces* exact_or_none() const { return exact ? &*exact : nullptr; }
};

/// What the parts of a site add to.
struct SiteParts {
  std::vector<OutputFile> files;
  PublicBlocks blocks;
  std::vector<DrawnMap> maps;
};

/// The least side of the squares, for people: "500 m".
std::string size_text(Metres size);

/// The files to take along, beside the lake's page: features.geojson and contours.geojson, areas.geojson and areas.csv,
/// with --exact spots.geojson, passes.geojson and spots.csv in their place. None has an input or an option of the plan.
void add_downloads(SiteParts& parts, const SiteLake& lake, const PublishOptions& options);
/// The lake's page, lakes/<slug>.html.
void add_lake_page(SiteParts& parts, const SiteLake& lake, const PublishOptions& options);
/// index.html
void add_index(SiteParts& parts, const std::vector<SiteLake>& lakes, const PublishOptions& options);
/// feed.atom (RFC 4287), one entry a lake: its id is made from what the lake's page says, so that a change is a new
/// entry. Without a base address its links are relative, as section 2 allows. sitemap.xml needs one.
void add_feed(SiteParts& parts, const std::vector<SiteLake>& lakes, const PublishOptions& options);
void add_sitemap(SiteParts& parts, const std::vector<SiteLake>& lakes, const PublishOptions& options);

/// Where they stand.
std::string lake_page_name(const PublicLake& lake);                             ///< lakes/kestrel-mere.html
std::string lake_file_name(const PublicLake& lake, std::string_view download);  ///< lakes/kestrel-mere/areas.csv

}  // namespace castplan
