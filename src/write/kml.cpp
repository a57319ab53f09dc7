// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <pugixml.hpp>

#include "castplan/write/text.hpp"
#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"
#include "write/records.hpp"
#include "write/waypoints.hpp"
#include "write/xml_text.hpp"

// KML 2.2 (OGC 07-147r2). The order of the children is the schema's.

namespace castplan {
namespace {

constexpr std::size_t kMostName = 120;  // the whole name stands in the data of the mark

/// Light and muted, so that they stand out from dark water in a picture from the air.
struct Look {
  std::string_view name;
  std::uint32_t rgb;
  double width;
};
constexpr Look kLooks[] = {
    {"spot", 0xf3c6e4, 2.0},
    {"pass", 0x9fe0d8, 3.0},
    {"pool", 0x9fc3d0, 1.5},
    {"drop-off", 0xe8c9a0, 2.5},
    {"weed-line", 0xa9cf8a, 3},
    {"hump", 0xe6b877, 1.5},
    {"saddle", 0xd9d2c0, 1.5},
    {"flat", 0xcfd8c0, 1.0},
    {"channel", 0x9db8e0, 2.5},
    {"point", 0xe9a58c, 3.0},
    {"inside-turn", 0xc3a9e0, 3},
    {"narrows", 0xd9d2c0, 1.5},
    {"bay", 0xa5d0d8, 1.5},
    {"wood", 0xd6bd98, 1.5},
    {"rock", 0xc9c5bd, 1.5},
    {"weeds", 0x9cc78a, 1.5},
    {"dock", 0xc9c5bd, 1.5},
    {"inflow", 0x9ed3d6, 1.5},
    {"cover", 0xd6bd98, 1.5},
    {"hazard", 0xf0918a, 2.5},
    {"closure", 0xd79ad6, 2.5},
    {"launch", 0xf3efe2, 1.5},
    {"spawning-ground", 0xee9fb5, 2.0},
};

const Look& look_of(std::string_view name) {
  const auto found =
      std::find_if(std::begin(kLooks), std::end(kLooks), [&](const Look& row) { return row.name == name; });
  return found == std::end(kLooks) ? kLooks[0] : *found;
}

// alpha, blue, green, red
std::string colour(std::uint32_t rgb, unsigned alpha) {
  return fmt::format("{:02x}{:02x}{:02x}{:02x}", alpha, rgb & 0xFFU, rgb >> 8U & 0xFFU, rgb >> 16U & 0xFFU);
}

void add_text(pugi::xml_node parent, const char* name, const std::string& text) {
  parent.append_child(name).text().set(text.c_str());
}

// Viewers take a description for HTML: what could be a tag there is escaped once more than XML asks for.
void add_description(pugi::xml_node parent, const std::string& words) {
  add_text(parent, "description", without_tags(words));
}

void add_style(pugi::xml_node document, const Look& look) {
  pugi::xml_node style = document.append_child("Style");
  style.append_attribute("id") = fmt::format("style-{}", look.name).c_str();
  pugi::xml_node icon = style.append_child("IconStyle");
  add_text(icon, "color", colour(look.rgb, 0xff));
  add_text(icon, "scale", look.name == "spot" ? "1.0" : "0.7");
  pugi::xml_node label = style.append_child("LabelStyle");
  add_text(label, "color", colour(look.rgb, 0xff));
  add_text(label, "scale", "0.8");
  pugi::xml_node line = style.append_child("LineStyle");
  add_text(line, "color", colour(look.rgb, 0xff));
  add_text(line, "width", fixed(look.width, 1));
  add_text(style.append_child("PolyStyle"), "color", colour(look.rgb, 0x40));
}

const char* type_name(ValueType type) {
  switch (type) {
    case ValueType::number:
      return "double";
    case ValueType::integer:
      return "int";
    case ValueType::boolean:
      return "bool";
    case ValueType::text:
      break;
  }
  return "string";
}

void add_schema(pugi::xml_node document, const RecordTable& table) {
  pugi::xml_node schema = document.append_child("Schema");
  schema.append_attribute("name") = table.name.c_str();
  schema.append_attribute("id") = ("schema-" + table.name).c_str();
  const auto add = [&](const char* type, const std::string& name) {
    pugi::xml_node field = schema.append_child("SimpleField");
    field.append_attribute("type") = type;
    field.append_attribute("name") = name.c_str();
  };
  add("string", "id");
  for (const RecordCell& cell : table.records.front().cells) add(type_name(cell.type), cell.name);
}

void add_data(pugi::xml_node placemark, const std::string& table, const RecordRow& record) {
  pugi::xml_node data = placemark.append_child("ExtendedData").append_child("SchemaData");
  data.append_attribute("schemaUrl") = ("#schema-" + table).c_str();
  const auto add = [&](const std::string& name, const std::string& value) {
    pugi::xml_node field = data.append_child("SimpleData");
    field.append_attribute("name") = name.c_str();
    field.text().set(value.c_str());
  };
  add("id", record.id);
  for (const RecordCell& cell : record.cells) {
    if (cell.printed) add(cell.name, *cell.printed);
  }
}

std::string coordinates(const MicroPath& path) {
  std::string out;
  for (const MicroPlace place : path) {
    out += (out.empty() ? "" : " ") + micro_degrees(place.lon) + "," + micro_degrees(place.lat);
  }
  return out;
}

void add_part(pugi::xml_node parent, MicroPlace place) {
  add_text(parent.append_child("Point"), "coordinates", coordinates({place}));
}

void add_part(pugi::xml_node parent, const MicroPath& path) {
  pugi::xml_node line = parent.append_child("LineString");
  add_text(line, "tessellate", "1");
  add_text(line, "coordinates", coordinates(path));
}

void add_part(pugi::xml_node parent, const MicroPolygon& polygon) {
  pugi::xml_node area = parent.append_child("Polygon");
  add_text(area, "tessellate", "1");
  add_text(area.append_child("outerBoundaryIs").append_child("LinearRing"), "coordinates", coordinates(polygon.outer));
  for (const MicroPath& hole : polygon.holes) {
    add_text(area.append_child("innerBoundaryIs").append_child("LinearRing"), "coordinates", coordinates(hole));
  }
}

// Nothing for an empty shape, MultiGeometry for several parts.
void add_shape(pugi::xml_node placemark, const GroundShape& shape) {
  std::visit(
      [&](const auto& parts) {
        pugi::xml_node parent = parts.size() > 1 ? placemark.append_child("MultiGeometry") : placemark;
        for (const auto& part : parts) add_part(parent, part);
      },
      shape);
}

struct Mark {
  std::string name, description;
};

void add_placemark(pugi::xml_node folder, const std::string& table, const Mark& mark, const RecordRow& record) {
  pugi::xml_node placemark = folder.append_child("Placemark");
  add_text(placemark, "name", shortened(one_line(mark.name), kMostName));
  add_description(placemark, mark.description);
  add_text(placemark, "styleUrl", "#style-" + table);
  add_data(placemark, table, record);
  add_shape(placemark, record.shape);
}

pugi::xml_node add_folder(pugi::xml_node parent, std::string_view name, const std::string& description = "") {
  pugi::xml_node folder = parent.append_child("Folder");
  std::string title = one_line(name);
  if (!title.empty() && title.front() >= 'a' && title.front() <= 'z')
    title.front() = static_cast<char>(title.front() - 32);
  add_text(folder, "name", title);
  add_text(folder, "open", "0");
  if (!description.empty()) add_description(folder, description);
  return folder;
}

void add_phase(pugi::xml_node document, const Plan& plan, const PhaseSpots& phase, const std::string& code) {
  if (phase.spots.empty() && phase.passes.empty()) return;
  pugi::xml_node folder = add_folder(document, phase.phase->title, joined(carried_facts(plan, phase.phase), " "));
  if (!phase.spots.empty()) {
    pugi::xml_node spots = add_folder(folder, "spots");
    for (const Spot& spot : phase.spots) {
      add_placemark(spots, "spot", {spot_waypoint(plan, spot, phase.spots.size(), code).name, spot_text(plan, spot)},
                    record_of(plan, spot));
    }
  }
  if (!phase.passes.empty()) {
    pugi::xml_node passes = add_folder(folder, "passes");
    for (const Pass& pass : phase.passes) {
      add_placemark(passes, "pass", {pass_way(plan, pass, phase.passes.size(), code).name, pass_text(plan, pass)},
                    record_of(plan, pass));
    }
  }
}

// Marks that also stand in a GPX file say the same as there: what to keep clear of, and the stop at the launch.
std::string feature_text(const Plan& plan, const Feature& feature) {
  const std::string words = sentence(feature_words(feature, plan.units));
  const bool mark = feature.kind == Kind::launch || feature.kind == Kind::hazard || feature.kind == Kind::closure;
  return mark ? joined({words, mark_waypoint(plan, feature, 1, 1).desc}, " ") : words;
}

void add_kinds(pugi::xml_node document, const Plan& plan) {
  for (const KindRow& row : kinds()) {
    pugi::xml_node folder;
    for (const Feature& feature : plan.features) {
      if (feature.kind != row.kind) continue;
      if (!folder) folder = add_folder(document, row.plural, std::string(row.what));
      const std::string name = one_line(feature.name);
      add_placemark(folder, std::string(row.name),
                    {name.empty() ? std::string(row.label) : name, feature_text(plan, feature)},
                    record_of(plan, feature));
    }
  }
}

std::string description(const Plan& plan) {
  std::vector<std::string> parts{"PRIVATE: EXACT PLACES.", program_text() + "."};
  for (const std::string& caution : carried_cautions(plan)) parts.push_back(caution);
  for (const PhaseSpots& phase : plan.phases) parts.push_back(sentence(phase.why_none));
  for (const std::string& fact : carried_facts(plan, nullptr)) parts.push_back(fact);
  for (const std::string& note : plan.notes) parts.push_back(sentence(note));
  if (!phases_with_spots(plan).empty()) parts.push_back(names_text());
  return joined(parts, " ");
}

}  // namespace

std::string places_kml(const Plan& plan) {
  pugi::xml_document xml;
  pugi::xml_node kml = begun(xml, "kml");
  kml.append_attribute("xmlns") = "http://www.opengis.net/kml/2.2";
  pugi::xml_node document = kml.append_child("Document");
  const std::string lake = shortened(one_line(plan.lake_name), kMostName);
  add_text(document, "name", joined({lake, plan.date}, ", "));
  add_text(document, "open", "1");
  add_description(document, description(plan));
  const std::vector<RecordTable> tables = record_tables(plan);
  for (const RecordTable& table : tables) add_style(document, look_of(table.name));
  for (const RecordTable& table : tables) add_schema(document, table);
  const std::vector<const PhaseSpots*> phases = phases_with_spots(plan);
  const std::vector<std::string> codes = phase_codes(phases);
  for (std::size_t at = 0; at < phases.size(); ++at) add_phase(document, plan, *phases[at], codes[at]);
  add_kinds(document, plan);
  return xml_text(xml);
}

}  // namespace castplan
