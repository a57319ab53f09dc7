// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <memory>

#include "castplan/geo/error.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/publish/site.hpp"
#include "castplan/write/folder.hpp"
#include "castplan/write/text.hpp"
#include "cli/interrupt.hpp"
#include "cli/make_plan.hpp"
#include "cli/option_values.hpp"
#include "cli/verb.hpp"

namespace castplan {

namespace {

struct PublishWords {
  std::vector<std::string> folders;
  std::string site, coarsen = "500m", base_url;
  bool exact = false, json = false, quiet = false;
};

std::string base_url_of(std::string url) {
  if (url.empty()) return url;
  if (!(url.starts_with("https://") || url.starts_with("http://")) ||
      url.find_first_of(" \t\"<>?#") != std::string::npos) {
    throw UsageError(
        fmt::format("--base-url {}: give the whole address of the folder that the site will stand in, such as "
                    "https://club.example/lakes/",
                    url));
  }
  if (!url.ends_with('/')) url += '/';
  return url;
}

PublishOptions understood(const PublishWords& words, bool coarsen_given) {
  PublishOptions options;
  options.exact = words.exact;
  if (words.exact && coarsen_given) {
    throw UsageError("--exact and --coarsen: exact places are not rounded; leave one of the two out");
  }
  options.coarsen = *given("--coarsen", words.coarsen, positive_length);
  if (options.coarsen < kLeastCoarsen || options.coarsen > kMostCoarsen) {
    throw UsageError(fmt::format("--coarsen {}: give {:.0f} m to {:.0f} km; smaller squares would tell the place",
                                 words.coarsen, kLeastCoarsen.value(), kMostCoarsen.value() / 1000.0));
  }
  options.base_url = base_url_of(words.base_url);
  if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH"); epoch != nullptr && *epoch != '\0') {
    options.document_date = document_date(std::nullopt);
  }
  return options;
}

// A plan's own page is exact: it must not go to the web with the site.
void refuse_plans_inside(const PublishWords& words) {
  const auto whole = [](const std::string& path) {
    std::error_code none;
    return std::filesystem::weakly_canonical(std::filesystem::absolute(path, none), none);
  };
  const std::filesystem::path site = whole(words.site);
  for (const std::string& folder : words.folders) {
    const std::filesystem::path plan = whole(folder);
    const auto [end, ignored] = std::mismatch(site.begin(), site.end(), plan.begin(), plan.end());
    if (end != site.end() && !end->empty()) continue;
    throw UsageError(fmt::format(
        "--site {}: the plan in {} lies in that folder, and its exact files would be published too; choose another",
        words.site, folder));
  }
  const std::string other = plan_in(words.site);
  if (!other.empty()) {
    throw UsageError(fmt::format("--site {}: holds {}, whose exact files would be published too; choose another folder",
                                 words.site, other));
  }
}

void json_texts(JsonText& json, std::string_view key, const std::vector<std::string>& all) {
  json.key(key).begin_array();
  for (const std::string& text : all) json.text(text);
  json.end_array();
}

void print_json(const PublishWords& words, const Site& site, const SiteChange& change) {
  JsonText json;
  json.begin_object().key("schema").integer(1).key("site").text(words.site).key("exact").boolean(words.exact);
  json.key("files").begin_array();
  for (const OutputFile& file : site.files) json.text(file.name);
  json.end_array();
  json_texts(json, "written", change.written);
  json_texts(json, "removed", change.removed);
  json_texts(json, "kept", change.kept);
  json.key("unchanged").integer(static_cast<long long>(change.unchanged));
  json_texts(json, "notes", site.notes);
  json.end_object();
  std::cout << json.str() << '\n';
}

void publish(const PublishWords& words, bool coarsen_given) {
  const PublishOptions options = understood(words, coarsen_given);
  refuse_plans_inside(words);
  const Site site = make_site(words.folders, options);
  finish_uninterrupted();
  const SiteChange change = write_site(words.site, site);
  if (!words.quiet) {
    for (const std::string& note : site.notes) std::cerr << "castplan: note: " << note << '\n';
    for (const std::string& name : change.kept) {
      std::cerr << fmt::format("castplan: note: {} stands for no lake now but was changed by hand, and is kept\n",
                               name);
    }
  }
  if (words.json) {
    print_json(words, site, change);
  } else if (!words.quiet) {
    std::cout << fmt::format(
        "{}: {} lake{}, {} file{} written, {} removed, {} as they were\n{}\nNot for navigation.\n", words.site,
        words.folders.size(), words.folders.size() == 1 ? "" : "s", change.written.size(),
        change.written.size() == 1 ? "" : "s", change.removed.size(), change.unchanged,
        words.exact ? "EXACT PLACES: everybody who can open these pages sees where to cast."
                    : fmt::format("Places are rounded to squares of at least {}. Public depths and an open tool still "
                                  "find the same edges.",
                                  words.coarsen));
  }
}

}  // namespace

std::function<void()> declare_publish(CLI::App& app) {
  auto words = std::make_shared<PublishWords>();
  app.add_option("DIR", words->folders, "folders that `castplan scout` wrote, one a lake")->required();
  app.add_option("--site", words->site, "folder for the pages")->required();
  CLI::Option* coarsen = app.add_option("--coarsen", words->coarsen,
                                        "least side of the squares that places are rounded to (default 500m)");
  app.add_flag("--exact", words->exact, "publish exact spots and passes, marked so on every page and file");
  app.add_option("--base-url", words->base_url, "where the site will stand; for sitemap.xml and the feed's links");
  app.add_flag("--json", words->json, "print one JSON object instead of a report");
  app.add_flag("--quiet", words->quiet, "print nothing but errors");
  return [words, coarsen] { publish(*words, coarsen->count() > 0); };
}

}  // namespace castplan
