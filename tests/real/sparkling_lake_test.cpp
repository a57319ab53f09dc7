// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Sparkling Lake, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "real/contours.hpp"
#include "real/gridded.hpp"
#include "real/measured_profile.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("sparkling-lake-wi",
                {"contours_all.shp", "derived/shoreline_wgs84.geojson", "hypsography.csv", "temperature_daily.tsv",
                 "thermocline_reference.tsv", "thermocline_seasonal_reference.tsv"});
}

// Rows of tab-separated cells without quotation marks, the header left out.
std::vector<std::vector<std::string>> tab_rows(const std::string& path, std::vector<std::string>* header = nullptr) {
  std::ifstream in(path);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(in, line);) {
    std::erase(line, '"');
    std::erase(line, '\r');
    std::vector<std::string> cells(1);
    for (const char c : line) c == '\t' ? static_cast<void>(cells.emplace_back()) : cells.back().push_back(c);
    rows.push_back(cells);
  }
  if (rows.empty()) throw std::runtime_error(path + ": is empty");
  if (header != nullptr) *header = rows.front();
  rows.erase(rows.begin());
  return rows;
}

std::vector<TemperatureAtDepth> chain_of(const std::vector<std::string>& header, const std::vector<std::string>& row) {
  std::vector<TemperatureAtDepth> levels;
  for (std::size_t i = 1; i < row.size(); ++i) {
    levels.push_back({Metres(std::stod(header[i].substr(4))), Celsius(std::stod(row[i]))});  // wtr_0.5
  }
  return levels;
}

}  // namespace

TEST_CASE("Sparkling Lake: 13 contour rings of a single basin") {
  const auto data = lake_data();
  if (!data) return;
  check_contours(*data, {"Sparkling Lake", 13, 58.31, 0, 0, ""});
}

TEST_CASE("Sparkling Lake: contours given as a raster are refused in clear words") {
  const auto data = lake_data();
  if (!data) return;
  check_scout_wants_a_raster(*data);
}

// Outside: shoreline polygon and volume (6.45 to 6.48 million m3) measured with other software from the same contours
// (data folder's README); greatest depth 20 m as published by NTL-LTER.
TEST_CASE("Sparkling Lake: gridded from its contours") {
  const auto data = lake_data();
  if (!data) return;
  const auto told = check_gridded(
      "--contours '" + *data + "/contours_all.shp' --shoreline '" + *data + "/derived/shoreline_wgs84.geojson'",
      {"Sparkling Lake", 58.31, 6.465, 11.1, 20, 0.3, 1, 1, 7});
  CHECK(told["flat_share"].get<double>() < 0.005);
}

// Outside: thermocline of 200 days as the authors of rLakeAnalyzer computed it from the same chain of thermometers,
// with the density of Martin & McCutcheon. Where they have none (NA) the column is mixed.
TEST_CASE("Sparkling Lake: thermocline of 200 days as published") {
  const auto data = lake_data();
  if (!data) return;
  std::vector<std::string> header;
  const auto chain = tab_rows(*data + "/temperature_daily.tsv", &header);
  for (const auto& [file, step] : {std::pair("thermocline_reference.tsv", Step::steepest),
                                   std::pair("thermocline_seasonal_reference.tsv", Step::seasonal)}) {
    const auto reference = tab_rows(*data + "/" + file);
    REQUIRE(reference.size() == chain.size());
    double worst = 0, worst_tanaka = 0;
    int none = 0;
    for (std::size_t i = 0; i < chain.size(); ++i) {
      REQUIRE(reference[i][0] == chain[i][0]);
      const auto levels = chain_of(header, chain[i]);
      const auto ours = thermocline_in(levels, {step, martin_mccutcheon_density});
      INFO(file << ", " << chain[i][0] << ": " << reference[i][1]);
      if (reference[i][1] == "NA" || reference[i][1] == "NaN") {
        ++none;
        CHECK(!ours);
        continue;
      }
      REQUIRE(ours);
      const double theirs = std::stod(reference[i][1]);
      worst = std::max(worst, std::abs(ours->value() - theirs));
      worst_tanaka = std::max(worst_tanaka, std::abs(thermocline_in(levels, {step})->value() - theirs));
    }
    note("Sparkling Lake, {}: {} days, {} mixed; worst difference {:.5f} m, {:.3f} m with our density", file,
         chain.size(), none, worst, worst_tanaka);
    CHECK(worst < 1e-6);
    CHECK(worst_tanaka < 0.05);
  }
}

// Outside: the same series: the lake was layered to the end of October 2009 and mixed from November on.
TEST_CASE("Sparkling Lake: turnover by stability falls where the thermometers show it") {
  const auto data = lake_data();
  if (!data) return;
  std::vector<AreaAtDepth> areas;
  for (const auto& row : table(*data + "/hypsography.csv")) {
    areas.push_back(
        {Metres(std::stod(row.at("Bathymetry Depths"))), SquareMetres(std::stod(row.at("Bathymetry Areas")))});
  }
  std::vector<std::string> header;
  const auto chain = tab_rows(*data + "/temperature_daily.tsv", &header);
  std::string last_layered, first_mixed;
  for (const auto& row : chain) {
    const auto levels = chain_of(header, row);
    const auto depth = thermocline_in(levels);
    const Mixing state =
        mixing_of(depth ? lake_number(areas, schmidt_stability(areas, levels), *depth, kUsualWind) : 0.0);
    if (row[0] >= "2009-06" && row[0] < "2009-10") CHECK(state == Mixing::layered);
    if (state == Mixing::layered) last_layered = row[0];
    if (state == Mixing::mixed && row[0] > "2009-08" && first_mixed.empty()) first_mixed = row[0];
  }
  note("Sparkling Lake: last layered {}, first mixed {}", last_layered, first_mixed);
  CHECK(last_layered > "2009-10-10");
  CHECK(last_layered < "2009-11-05");
  CHECK(first_mixed > "2009-10-25");
  CHECK(first_mixed < "2009-11-12");
  // predicted from the published area and depth
  const auto predicted = predicted_thermocline(SquareMetres(64e4), Metres(20));
  REQUIRE(predicted);
  int inside = 0, days = 0;
  for (const auto& row : chain) {
    if (row[0] < "2009-07-01" || row[0] >= "2009-08-16") continue;
    const auto depth = thermocline_in(chain_of(header, row));
    REQUIRE(depth);
    ++days;
    inside += *depth >= predicted->low && *depth <= predicted->high ? 1 : 0;
  }
  note("Sparkling Lake: {} of {} midsummer days within the predicted {:.2f} to {:.2f} m", inside, days,
       predicted->low.value(), predicted->high.value());
}
