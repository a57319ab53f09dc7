// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "castplan/write/plan.hpp"
#include "write/depth_picture.hpp"

namespace castplan {

/// What the parts of the page are made from.
struct MapPage {
  const Plan& plan;
  MapView view;
};

/// Pixels of the map when the page opens on a wide screen; what stands beside marks is set apart for this width.
inline constexpr double kFirstWidth = 620.0;

/// How a kind is drawn. Every kind has its own dash, pattern or shape, so that none is told by colour alone.
enum class Drawn { line, area, symbol };
struct KindArt {
  Kind kind;
  Drawn drawn;      ///< what its sample in the legend shows
  bool has_symbol;  ///< a mark of constant size stands at its anchor, or at each of its points
  bool has_ticks;   ///< short strokes across the line
};
/// In the order of drawing, lowest first.
std::span<const KindArt> kind_arts();

/// Spots of a phase as the page shows them: none at a stop.
std::span<const Spot> shown_spots(const Plan& plan, std::size_t phase);
/// The phase that the page opens with: the first that has spots, else the first.
std::size_t first_phase(const Plan& plan);
/// "B" where several phases are planned, else empty.
std::string phase_letter(const Plan& plan, std::size_t phase);
/// "3", or "B3" where several phases are planned and B is the second.
std::string spot_label(const Plan& plan, std::size_t phase, const Spot& spot);
/// "spot-row-1-3": prefix, number of the phase, rank.
std::string element_id(std::string_view prefix, std::size_t phase, const Spot& spot);

/// The attributes that put a button there: place on the map, offset, and for the page's script the way that the button
/// would stand by itself, in degrees clockwise from up. towards: what lies ahead.
std::string button_place(const MapView& view, XY place, XY towards, XY offset);

/// The same of passes: "P3" or "BP3", "pass-row-1-3".
std::span<const Pass> shown_passes(const Plan& plan, std::size_t phase);
std::string pass_label(const Plan& plan, std::size_t phase, const Pass& pass);
std::string element_id(std::string_view prefix, std::size_t phase, const Pass& pass);

/// Cells that rows of spots and passes have alike.
std::string bars_html(const std::vector<Reason>& why, const std::vector<std::string>& not_assessed);
std::string lures_html(const std::vector<Presentation>& presentations);
std::string own_cautions_html(const std::vector<std::string>& cautions);
std::string covers_text(const std::vector<Kind>& kinds);
/// The passes of a phase as a table; empty without any.
std::string passes_html(const Plan& plan, std::size_t phase);

/// What is known of a feature, in a few words: "2.1 to 5.4 m (7 to 18 ft), grade 22 %, faces northeast". The facts are
/// the same, escaped.
std::string feature_words(const Feature& feature, Units units);
std::string feature_facts(const Feature& feature, Units units);

/// Parts of the map's picture (SVG, drawing units of the view) and of what lies over it (HTML, placed in per cent).
std::string outline_path(const MapPage& page);
/// How a text along a line is turned at a share of its length, in degrees clockwise, -90 to 90: never upside down.
double reading_turn(const Line& line, double share);
std::string contour_paths(const MapPage& page, Units units);
std::string contour_labels(const MapPage& page, Units units);
std::string feature_layers(const MapPage& page);
std::string feature_marks(const MapPage& page);
std::string cast_lines(const MapPage& page);
std::string spot_marks(const MapPage& page);
std::string pass_lines(const MapPage& page);
std::string pass_marks(const MapPage& page);
std::string pass_switch(const Plan& plan);  ///< a line of the legend; empty without passes

/// Parts beside the map.
std::string legend_html(const MapPage& page);
std::string phases_html(const MapPage& page);
std::string features_html(const MapPage& page);
std::string scale_html(const MapPage& page);
std::string north_html(const MapPage& page);

/// Parts above and below it.
std::string advisory_html(const Plan& plan);
std::string facts_html(const Plan& plan);
/// What stays in sight: whether there is an advisory, and for which temperatures the plan holds.
std::string fixed_html(const Plan& plan);
std::string cautions_html(const Plan& plan);
std::string about_html(const Plan& plan);
/// Links that save the plan's GPX and CSV files, which stand in the page.
std::string downloads_html(const Plan& plan);

/// Data for the page's script.
std::string script_data(const MapPage& page);

}  // namespace castplan
