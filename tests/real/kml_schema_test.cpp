// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// The schema of OGC KML 2.2 with its imports, as the library fastkml carries it. See README.md.
#include <catch2/catch.hpp>

#include "castplan/write/text.hpp"
#include "real/real_lakes.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::real;

TEST_CASE("xmllint holds KML to the schema of the OGC") {
  const auto files = folder("format-samples", {"ogckml22.xsd", "xAL.xsd", "atom-author-link.xsd", "kml22gx.xsd"});
  if (!files) return;
  const programs::Scratch scratch;
  const auto lint = [&](const std::string& text) {
    return programs::run("xmllint --nonet --noout --schema " + *files + "/ogckml22.xsd " +
                         scratch.write("places.kml", text));
  };
  const auto plan = [](double lon, double lat, bool one_phase, bool stop) {
    castplan::sample::Options options;
    options.centre = {Longitude{lon}, Latitude{lat}};
    options.one_phase = one_phase;
    options.stop = stop;
    return castplan::sample::plan(options);
  };
  for (const Plan& each : {plan(-40, 45.5, false, false), plan(-40, 45.5, true, false), plan(-40, 45.5, true, true),
                           plan(180, -17, false, false), plan(20, 84, true, false)}) {
    const auto found = lint(places_kml(each));
    CAPTURE(found.text);
    CHECK(found.code == 0);
  }
  std::string wrong = places_kml(plan(-40, 45.5, true, false));
  wrong.replace(wrong.find("<styleUrl>"), 0, "<altitudeMode>deep</altitudeMode>");
  CHECK(lint(wrong).code != 0);
}
