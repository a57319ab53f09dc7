// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan::sheet {
namespace {

constexpr Font kLead{10.5, true};
constexpr double kInset = 1.6 * kMm;
constexpr double kBetween = 1.4 * kMm;

// A framed box with a bold first line; what follows is drawn by the caller from the y that comes back.
double boxed(Canvas& canvas, Area area, const std::string& lead) {
  canvas.frame(area, kRule);
  const double y = area.top + 4.2 * kMm;
  canvas.text({area.left + kInset, y}, fitted(canvas, lead, kLead, area.width - 2.0 * kInset), kLead);
  return y;
}

// Words, then a line to write on up to an x.
void to_fill(Canvas& canvas, Place at, const std::string& words, double until) {
  canvas.text(at, words, kBody);
  const double from = at.x + canvas.width_of(words, kBody) + 2.0;
  canvas.line({from, at.y + 1.0}, {until, at.y + 1.0}, kHair);
}

void first_stop(Canvas& canvas, const Plan& plan, const Stops& stops, Area area) {
  const Tagged tag(canvas, "P");
  const Stop& first = stops.stops.front();
  const std::string words = fmt::format("First stop ({}): map {}, minus sounder =", first.label,
                                        length_text(first.spot->boat_depth, plan.units));
  const double y = boxed(canvas, area, words);
  const double from = area.left + kInset + canvas.width_of(words, kLead) + 2.0;
  canvas.line({from, y + 1.0}, {area.right() - kInset, y + 1.0}, kHair);
  canvas.text({area.left + kInset, y + 4.6 * kMm},
              fmt::format("Over {}, either way: distrust all depths.", plan.units == Units::metric ? "0.6 m" : "2 ft"),
              kBodyBold);
}

// Another fish than the planned one is named: it is why the day ends sooner.
std::string water_words(const Plan& plan) {
  const std::optional<DayEnd> end = day_end(plan);
  if (!end) return "Water temperature.";
  if (end->species == plan.profile) return fmt::format("Water temperature. At {} the day ends.", end->words);
  return fmt::format("At {} the day ends, for {}.", end->words, one_line(end->species->name));
}

void water(Canvas& canvas, const Plan& plan, Area area) {
  const Tagged tag(canvas, "P");
  double y = boxed(canvas, area, water_words(plan));
  canvas.text({area.left + kInset, y + 4.2 * kMm}, "Measure 0.5 m (20 in) down, away from the ramp, every 2 h.", kBody);
  constexpr int kCount = 6;
  const double side = (area.width - 2.0 * kInset) / kCount;
  const double top = area.bottom() - 9.6 * kMm;
  for (int i = 0; i < kCount; ++i) {
    const double left = area.left + kInset + i * side;
    canvas.frame({left + 0.5 * kMm, top, side - 1.0 * kMm, 8.4 * kMm}, kRule);
  }
}

std::string crossing_words(const Plan& plan, const Stops& stops) {
  const std::string far = rough_distance(100.0, plan.units);
  if (stops.crossing < 5.0) return fmt::format("Longest open crossing: none is {} off land.", far);
  return fmt::format("Longest open crossing: {}, {} to {} ({} off land).", rough_distance(stops.crossing, plan.units),
                     stops.crossing_from, stops.crossing_to, far);
}

void back(Canvas& canvas, const Plan& plan, const Stops& stops, Area area) {
  const Tagged tag(canvas, "P");
  const bool known = !plan.be_back.empty();
  const std::string head = plan.morning_only ? "Stop by " : "Be back by ";
  const double y = boxed(canvas, area, head + (known ? one_line(plan.be_back) : "____________"));
  canvas.text({area.left + kInset, y + 4.2 * kMm},
              plan.morning_only ? "Warm water: the morning only; sooner when the wind builds."
                                : "45 minutes before sunset; sooner when the wind builds.",
              kBody);
  if (stops.stops.empty()) return;
  canvas.text({area.left + kInset, y + 8.2 * kMm},
              fitted(canvas, crossing_words(plan, stops), kBody, area.width - 2.0 * kInset), kBody);
}

struct Blanks {
  std::string lead, first, second, below;
};

// Two lines to fill in, the first in two parts.
void call(Canvas& canvas, const Blanks& words, Area area) {
  const Tagged tag(canvas, "P");
  canvas.frame(area, kRule);
  const double y = area.top + 5.0 * kMm;
  const double left = area.left + kInset;
  const double name = left + canvas.width_of(words.lead, kLead) + 2.0 * kMm;
  const double right = area.right() - kInset;
  const double middle = (name + right) / 2.0;
  canvas.text({left, y}, words.lead, kLead);
  to_fill(canvas, {name, y}, words.first, middle - 4.0);
  to_fill(canvas, {middle, y}, words.second, right);
  to_fill(canvas, {left, y + 5.6 * kMm}, words.below, right);
}

}  // namespace

std::optional<DayEnd> day_end(const Plan& plan) {
  std::vector<const Profile*> species{plan.profile};
  species.insert(species.end(), plan.season.species.begin(), plan.season.species.end());
  std::optional<DayEnd> end;
  for (const Profile* one : species) {
    if (one == nullptr || !one->stop_from || (end && end->at <= one->stop_from->value)) continue;
    const Celsius stop = one->stop_from->value;
    const std::string written = one_line(one->stop_text);
    const bool fahrenheit = written.find('F') != std::string::npos;
    end = DayEnd{one, stop,
                 fmt::format("{} ({})", written.empty() ? temperature_text(stop, plan.units) : written,
                             temperature_text(stop, fahrenheit ? Units::metric : Units::imperial))};
  }
  return end;
}

std::string rough_distance(double metres, Units units) {
  const double unit = units == Units::metric ? 1.0 : 0.3048;
  const double step = std::pow(10.0, std::floor(std::log10(std::max(10.0, metres / unit))) - 1.0);
  return distance_text(Metres(std::round(metres / unit / step) * step * unit), units);
}

void draw_boxes(Canvas& canvas, const Plan& plan, const Stops& stops, Area area) {
  const bool some = !stops.stops.empty();
  std::vector<double> heights = some ? std::vector<double>{10.4, 19.0, 13.0} : std::vector<double>{19.0, 10.0, 10.0};
  double left_over = area.height - kBetween * static_cast<double>(heights.size() - 1);
  for (double& height : heights) left_over -= height *= kMm;
  // what room is left is shared out, or left for notes, so that the boxes end where the map ends
  for (double& height : heights) height += some ? left_over / static_cast<double>(heights.size()) : 0.0;
  if (!some) heights.back() += left_over;
  double y = area.top;
  const auto next = [&] {
    const Area box{area.left, y, area.width, heights.front()};
    heights.erase(heights.begin());
    y = box.bottom() + kBetween;
    return box;
  };
  if (some) first_stop(canvas, plan, stops, next());
  water(canvas, plan, next());
  back(canvas, plan, stops, next());
  if (some) return;
  const Tagged tag(canvas, "P");
  boxed(canvas, next(), "Notes");
}

void draw_calls(Canvas& canvas, Area area) {
  const double half = (area.width - kBetween) / 2.0;
  call(canvas, {"On shore", "Name", "Phone", "Calls for help if not heard from us by"},
       {area.left, area.top, half, area.height});
  call(canvas, {"Emergency", "Number", "Channel", "Ramp and road, to tell them"},
       {area.left + half + kBetween, area.top, half, area.height});
}

}  // namespace castplan::sheet
