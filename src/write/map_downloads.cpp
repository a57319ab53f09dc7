// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/write/text.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/waypoints.hpp"

namespace castplan {
namespace {

// As base 64 no byte of a file can be read as markup, and the link works without the script.
std::string download(const OutputFile& file, std::string_view type, std::string_view what) {
  return fmt::format("<li><a download=\"{0}\" href=\"data:{1};base64,{2}\">{0}</a>, {3}, {4} kB</li>\n",
                     escaped(file.name), type, base64(file.bytes), what, (file.bytes.size() + 999) / 1000);
}

}  // namespace

std::string downloads_html(const Plan& plan) {
  std::string out = "<ul class=\"downloads\">\n";
  for (const OutputFile& file : waypoint_files_for_page(plan)) {
    out += download(file, "application/gpx+xml", "waypoints for a chart plotter or a phone");
  }
  // the spots of a whole year would make the page too large to send
  if (plan.phases.size() < 2) {
    out += download({"spots.csv", spots_csv(plan)}, "text/csv;charset=utf-8", "the spots for a spreadsheet");
  } else {
    out +=
        "<li>spots.csv, for a spreadsheet, stands beside this page in its folder; the waypoint files there hold the "
        "outlines of hazards and closures too</li>\n";
  }
  return out + "</ul>\n<p class=\"small\">These files stand in this page and hold exact places, as it does.</p>\n";
}

}  // namespace castplan
