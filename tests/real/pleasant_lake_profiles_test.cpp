// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Pleasant Lake, Wisconsin: profiles of the Central Sands Lakes Study, Wisconsin DNR, in the package CSLSdata (MIT).
#include "real/measured_profile.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() { return folder("pleasant-lake-wi", {"profiles.csv", "elev_area_volume.csv"}); }

auto all_profiles(const std::string& data) {
  return profiles(table(data + "/profiles.csv"), {"datetime_local", "depth_m", "temp_c", "do_mg_l"});
}

// The study team's areas, below the level of 299.0544 m (2018-05-23).
std::vector<AreaAtDepth> areas_of(const std::string& data) {
  std::vector<AreaAtDepth> out;
  for (const auto& row : table(data + "/elev_area_volume.csv")) {
    const double depth = 299.0544 - std::stod(row.at("elev_m"));
    if (depth >= 0) out.push_back({Metres(depth), SquareMetres(std::stod(row.at("area_m2")))});
  }
  std::reverse(out.begin(), out.end());
  return out;
}

}  // namespace

// Outside: the data folder's README: stratified between about 4 and 7 m in midsummer; on 2018-07-12 oxygen of 1.6 mg/l
// at 7 m and a peak at 5 m.
TEST_CASE("Pleasant Lake: thermocline and oxygen of the measured profiles") {
  const auto data = lake_data();
  if (!data) return;
  const auto measured = all_profiles(*data);
  const auto bowl = areas_of(*data);
  const auto predicted = predicted_thermocline(SquareMetres(552830.5), Metres(7.91));
  REQUIRE(predicted);
  int midsummer = 0;
  for (const auto& [date, levels] : measured) {
    const auto depth = thermocline_in(column(levels));
    const auto stability = schmidt_stability(bowl, column(levels));
    const double number = depth ? lake_number(bowl, stability, *depth, kUsualWind) : 0;
    note(
        "Pleasant Lake {}: top {:.1f} C, bottom {:.1f} C, thermocline {}, stability {:.1f} J/m2, lake number {:.2f}: "
        "{}",
        date, levels.front().temperature.value(), levels.back().temperature.value(),
        depth ? fmt::format("{:.2f} m", depth->value()) : "none", stability.value(), number,
        name_of(mixing_of(number)));
    const std::string month = date.substr(5, 2);
    if (month != "07") continue;
    ++midsummer;
    REQUIRE(depth);
    CHECK(*depth > Metres(4));
    CHECK(*depth < Metres(7));
    CHECK(mixing_of(number) == Mixing::layered);
    note("  predicted {:.2f} m ({:.2f} to {:.2f})", predicted->expected.value(), predicted->low.value(),
         predicted->high.value());
  }
  CHECK(midsummer >= 2);
  const auto none = depths_without_oxygen(measured.at("2018-07-12"));
  REQUIRE(none.size() == 1);
  CHECK(none[0].first > Metres(6));
  CHECK(none[0].first < Metres(7));
}
