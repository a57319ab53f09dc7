// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/publish/site.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

#include "castplan/geo/error.hpp"
#include "castplan/geo/geodesic.hpp"
#include "castplan/write/plain_text.hpp"
#include "publish/lake_files.hpp"
#include "publish/secrets.hpp"

namespace castplan {
namespace {

constexpr std::size_t kMostTold = 5;

// Letters of Latin-1 (U+00C0 to U+00FF, in UTF-8 behind the byte C3) without their marks.
std::string without_marks(const std::string& name) {
  static constexpr std::string_view kPlain = "AAAAAAACEEEEIIIIDNOOOOO-OUUUUYTsaaaaaaaceeeeiiiidnooooo-ouuuuyty";
  std::string out;
  for (std::size_t at = 0; at < name.size(); ++at) {
    const bool marked = name[at] == '\xC3' && at + 1 < name.size();
    out += marked ? kPlain[static_cast<unsigned char>(name[++at]) & 0x3FU] : name[at];
  }
  return out;
}

// Letters, digits and hyphens, which stand in any address and any file system.
std::string slug_of(const std::string& name) {
  std::string out;
  for (const char letter : without_marks(name)) {
    const auto byte = static_cast<unsigned char>(letter);
    if (byte < 0x80 && std::isalnum(byte) != 0) {
      out += static_cast<char>(std::tolower(byte));
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
    if (out.size() >= 60) break;
  }
  while (out.ends_with('-')) out.pop_back();
  return out;
}

// To a tenth of a degree: where a lake lies is on every map.
std::string rough_place(LonLat at) {
  return fmt::format("{:.1f}{}-{:.1f}{}", std::abs(at.lat.degrees), at.lat.degrees < 0.0 ? 's' : 'n',
                     std::abs(at.lon.degrees), at.lon.degrees < 0.0 ? 'w' : 'e');
}

void name_pages(std::vector<SiteLake>& lakes, const std::vector<std::string>& folders) {
  std::map<std::string, int> named;
  for (SiteLake& site : lakes) {
    site.lake.slug = slug_of(site.lake.name);
    if (site.lake.slug.empty()) site.lake.slug = "lake-" + rough_place(site.lake.centre);
    ++named[site.lake.slug];
  }
  std::map<std::string, std::size_t> taken;
  for (std::size_t i = 0; i < lakes.size(); ++i) {
    PublicLake& lake = lakes[i].lake;
    if (named[lake.slug] > 1) lake.slug += "-" + rough_place(lake.centre);
    const auto [other, fresh] = taken.emplace(lake.slug, i);
    if (!fresh) {
      throw InputError(fmt::format("{} and {}: both hold a plan of {}; a lake has one page: publish one of the two",
                                   folders[other->second], folders[i], shortened(lake.name, 80)));
    }
  }
}

// Names and places of two lakes that are one are refused above only where they stand near each other.
bool before(const SiteLake& a, const SiteLake& b) { return a.lake.slug < b.lake.slug; }

SiteLake site_lake(const Scouted& scouted, const WorldGrid& grid, const PublishOptions& options) {
  try {
    SiteLake out{public_lake(scouted, grid, options.exact), std::nullopt, options.document_date};
    if (options.exact) out.exact = exact_places(scouted, out.lake.small);
    if (out.updated.empty()) out.updated = (out.lake.date.empty() ? "2000-01-01" : out.lake.date) + "T00:00:00Z";
    return out;
  } catch (const Json::exception& error) {
    throw InputError(fmt::format("{}: is not as castplan writes it ({}); run `castplan scout` again into that folder",
                                 scouted.folder, error.what()));
  }
}

void refuse_leaks(const SiteParts& parts, const Secrets& secrets) {
  const std::vector<Leak> leaks = find_leaks(parts.files, parts.blocks, parts.maps, secrets);
  if (leaks.empty()) return;
  std::string told;
  for (std::size_t at = 0; at < std::min(leaks.size(), kMostTold); ++at) {
    told += fmt::format("{}{}, byte {}: {}", at == 0 ? "" : "; ", leaks[at].file, leaks[at].offset, leaks[at].what);
  }
  throw OutputError(
      fmt::format("{} place{} would leave the club and nothing was written: {}; if a text of your own (a name, the "
                  "rules, a source) "
                  "holds it, take it out there and scout again, else please report this as a bug of ours",
                  leaks.size(), leaks.size() == 1 ? "" : "s", told));
}

}  // namespace

std::string size_text(Metres size) {
  return size.value() >= 1000.0 ? fmt::format("{:g} km", size.value() / 1000.0) : fmt::format("{:g} m", size.value());
}

std::string lake_page_name(const PublicLake& lake) { return "lakes/" + lake.slug + ".html"; }

std::string lake_file_name(const PublicLake& lake, std::string_view download) {
  return fmt::format("lakes/{}/{}", lake.slug, download);
}

Site make_site(const std::vector<std::string>& folders, const PublishOptions& options) {
  const WorldGrid grid(options.coarsen);
  std::vector<SiteLake> lakes;
  Secrets secrets;
  for (const std::string& folder : folders) {
    const Scouted scouted = read_scouted(folder);
    lakes.push_back(site_lake(scouted, grid, options));
    const Secrets own = secrets_of(scouted, options.exact);
    secrets.places.insert(secrets.places.end(), own.places.begin(), own.places.end());
    secrets.texts.insert(secrets.texts.end(), own.texts.begin(), own.texts.end());
  }
  name_pages(lakes, folders);
  // in the order of their pages, whatever order the folders were given in
  std::sort(lakes.begin(), lakes.end(), before);
  SiteParts parts;
  Site site;
  site.exact = options.exact;
  for (const SiteLake& lake : lakes) {
    add_downloads(parts, lake, options);
    add_lake_page(parts, lake, options);
  }
  add_feed(parts, lakes, options);
  if (options.base_url.empty()) {
    site.notes.emplace_back(
        "sitemap.xml needs whole addresses and was left out; give --base-url where the site will stand");
  } else {
    add_sitemap(parts, lakes, options);
  }
  add_index(parts, lakes, options);
  if (options.before_check) options.before_check(parts.files);
  refuse_leaks(parts, secrets);
  site.files = std::move(parts.files);
  return site;
}

}  // namespace castplan
