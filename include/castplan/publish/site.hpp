// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "castplan/geo/quantity.hpp"
#include "castplan/write/plan.hpp"

namespace castplan {

struct PublishOptions {
  Metres coarsen{500.0};        ///< least side of the squares that places are rounded to
  bool exact = false;           ///< exact spots and passes leave as well
  std::string base_url{};       ///< where the site will stand, with "/" at its end; empty: not known
  std::string document_date{};  ///< ISO 8601, for every document; empty: each plan's own date, else a fixed one
  /// Called with all files before they are looked through for what must not leave: a test adds bytes here.
  std::function<void(std::vector<OutputFile>&)> before_check{};
};

/// The sizes that places may be rounded to.
inline constexpr Metres kLeastCoarsen{100.0};
inline constexpr Metres kMostCoarsen{50000.0};

/// Waters smaller than this have no spots on a site.
inline constexpr SquareMetres kLeastLake{2.0e6};

/// A static site in memory; names hold "/", index.html comes last.
struct Site {
  bool exact = false;
  std::vector<OutputFile> files;
  std::vector<std::string> notes;  ///< for the person who publishes
};

/// A site from folders that `scout` wrote. Places are coarsened, unless exact, before any page is made; at the end all
/// bytes are looked through. Throws InputError for a folder that is none of ours, files that do not belong together, a
/// stop that was set aside, and two plans of one lake; OutputError, naming file and byte, where an exact place, an id,
/// a hash or a picture would leave.
Site make_site(const std::vector<std::string>& folders, const PublishOptions& options);

struct SiteChange {
  std::vector<std::string> written, removed;
  std::vector<std::string> kept;  ///< pages of ours that no lake stands for now, but that somebody has changed
  std::size_t unchanged = 0;
};

/// Puts a site into a folder. Files that have the same bytes already are not touched; pages that an earlier site left
/// and this one does not have are removed if they are still as we wrote them (a list in the folder,
/// `castplan-site.txt`, says so); nothing else is touched. Throws OutputError, also where a file that is not ours
/// stands in the way.
SiteChange write_site(const std::string& folder, const Site& site);

}  // namespace castplan
