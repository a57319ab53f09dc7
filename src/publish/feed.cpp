// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "castplan/io/load.hpp"
#include "castplan/write/html_text.hpp"
#include "castplan/write/plain_text.hpp"
#include "publish/lake_files.hpp"
#include "publish/site_text.hpp"

namespace castplan {
namespace {

// A UUID of version 8 (RFC 9562, section 5.8) whose bits are those of a SHA-256 hash: the same words, the same id.
std::string urn_of(const std::string& words) {
  std::string hex = sha256_of_bytes(words).substr(0, 32);
  hex[12] = '8';
  hex[16] = "89ab"[static_cast<std::size_t>(hex[16] <= '9' ? hex[16] - '0' : hex[16] - 'a' + 10) % 4];
  return fmt::format("urn:uuid:{}-{}-{}-{}-{}", hex.substr(0, 8), hex.substr(8, 4), hex.substr(12, 4),
                     hex.substr(16, 4), hex.substr(20, 12));
}

// What a reader of the feed is told; the id stands for the whole page and its files.
std::string entry_of(const SiteLake& site, const std::vector<OutputFile>& files, const PublishOptions& options) {
  const PublicLake& lake = site.lake;
  std::string content = lake.slug + "\n";
  for (const OutputFile& file : files) {
    if (file.name == lake_page_name(lake) || file.name.starts_with("lakes/" + lake.slug + "/")) content += file.bytes;
  }
  std::string words = sentence(state_text(lake, site.exact_or_none()));
  if (site.exact) words += " EXACT PLACES.";
  if (!lake.temperatures.empty()) words += " Holds for " + sentence(lake.temperatures);
  for (const std::string& reason : lake.reasons) words += " " + sentence(reason);
  if (!lake.cautions.empty()) words += " " + sentence(lake.cautions.front());
  const std::string link = options.base_url + lake_page_name(lake);
  return fmt::format(
      "  <entry>\n    <id>{}</id>\n    <title>{}</title>\n    <updated>{}</updated>\n    <link "
      "rel=\"alternate\" type=\"text/html\" href=\"{}\"/>\n    <summary>{}</summary>\n  </entry>\n",
      urn_of(content), short_name(lake.name), site.updated, escaped(link), escaped(words));
}

}  // namespace

void add_feed(SiteParts& parts, const std::vector<SiteLake>& lakes, const PublishOptions& options) {
  std::string updated, entries, names;
  for (const SiteLake& site : lakes) {
    updated = std::max(updated, site.updated);
    entries += entry_of(site, parts.files, options);
    names += site.lake.slug + "\n";
  }
  std::string out =
      "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<feed xmlns=\"http://www.w3.org/2005/Atom\" xml:lang=\"en\">\n";
  out += fmt::format("  <id>{}</id>\n  <title>Lakes of the club: changes{}</title>\n  <updated>{}</updated>\n",
                     urn_of(options.base_url.empty() ? "site of\n" + names : options.base_url),
                     options.exact ? " (EXACT PLACES)" : "", updated);
  out += fmt::format("  <author><name>the club</name></author>\n  <generator version=\"{}\">castplan</generator>\n",
                     version());
  out += "  <subtitle>Not for navigation. Local rules and closures come first.</subtitle>\n";
  if (!options.base_url.empty()) {
    out += fmt::format("  <link rel=\"self\" type=\"application/atom+xml\" href=\"{}feed.atom\"/>\n",
                       escaped(options.base_url));
  }
  out +=
      fmt::format("  <link rel=\"alternate\" type=\"text/html\" href=\"{}index.html\"/>\n", escaped(options.base_url));
  parts.files.push_back({"feed.atom", out + entries + "</feed>\n"});
}

// Source of the form: the protocol of sitemaps.org, version 0.9, from memory: `loc` is a whole address.
void add_sitemap(SiteParts& parts, const std::vector<SiteLake>& lakes, const PublishOptions& options) {
  const auto entry = [&](const std::string& name, const std::string& date) {
    return fmt::format("  <url><loc>{}{}</loc><lastmod>{}</lastmod></url>\n", escaped(options.base_url), name, date);
  };
  std::string newest, pages;
  for (const SiteLake& site : lakes) {
    const std::string date = site.updated.substr(0, 10);
    newest = std::max(newest, date);
    pages += entry(lake_page_name(site.lake), date);
  }
  parts.files.push_back({"sitemap.xml",
                         "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<urlset "
                         "xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n" +
                             entry("index.html", newest) + pages + "</urlset>\n"});
}

}  // namespace castplan
