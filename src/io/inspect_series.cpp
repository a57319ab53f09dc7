// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "io/csv_table.hpp"
#include "io/gdal.hpp"
#include "io/inspect_parts.hpp"
#include "io/iso_date.hpp"
#include "io/series_limits.hpp"

namespace castplan {
namespace {

using std::chrono::sys_seconds;

constexpr double kMostChange = 5;     // C of water from one day to the next; design choice
constexpr double kMostInversion = 1;  // C that deeper water may be warmer, above the 4 C of greatest density
constexpr std::size_t kFewLevels = 3;
constexpr double kNearSurface = 1;  // metres

/// Rows that something is wrong with: how many, and the first of them in words.
struct Wrong {
  int count = 0;
  std::string first;
  void add(std::string words) {
    if (count++ == 0) first = std::move(words);
  }
};

// A date, or the hour of it.
std::string moment_text(sys_seconds at, bool hourly) {
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day date(day);
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(at - day).count();
  const std::string text = fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(date.year()),
                                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return hourly ? text + fmt::format(" {:02d}:{:02d} UTC", minutes / 60, minutes % 60) : text;
}

/// One table as it is looked at: every row, not only up to the first that cannot be read.
class Look {
 public:
  Look(const SeriesTable& table, const std::string& path, const std::string& key, Inspection& out)
      : what_(table), csv_(path, file_name(path)), name_(file_name(path)), out_(out) {
    facts_.name = name_;
    facts_.path = path;
    facts_.key = key;
    facts_.kind = "table";
    facts_.format = "text table";
  }

  void run();

 private:
  void say(Severity severity, const char* code, const std::string& text, const std::string& mend) {
    out_.findings.push_back({severity, code, fmt::format("{}: {}", name_, text), mend});
  }
  // what: with {} where an "s" makes it many
  void say_of(const Wrong& wrong, Severity severity, const char* code, const std::string& what,
              const std::string& mend) {
    if (wrong.count > 0)
      say(severity, code,
          fmt::format("{} {}, first: {}", wrong.count, fmt::format(fmt::runtime(what), wrong.count == 1 ? "" : "s"),
                      wrong.first),
          mend);
  }
  std::optional<sys_seconds> time_of(std::size_t row) const;
  std::optional<double> value_of(std::size_t row, const SeriesColumn& column, Wrong& bad);
  void read_columns();
  void judge_times();
  void judge_changes();
  void judge_profile();
  void judge_gusts();

  const SeriesTable& what_;
  CsvTable csv_;
  std::string name_;
  Inspection& out_;
  FileFacts facts_;
  std::vector<std::optional<sys_seconds>> times_;
  std::map<std::string_view, std::vector<std::optional<double>>> values_;
};

std::optional<sys_seconds> Look::time_of(std::size_t row) const {
  const std::string text = csv_.text(row, what_.time);
  if (what_.hourly) return utc_moment(text);
  if (!is_iso_date(text)) return std::nullopt;
  return utc_moment(text + "T00:00");
}

std::optional<double> Look::value_of(std::size_t row, const SeriesColumn& column, Wrong& bad) {
  const std::string text = csv_.text(row, column.name);
  if (text.empty() && column.may_be_empty) return std::nullopt;
  std::optional<double> value;
  try {
    value = csv_.number(row, column.name);
  } catch (const std::exception&) {
    bad.add(fmt::format("\"{}\" in the row of {}", text, csv_.text(row, what_.time)));
    return std::nullopt;
  }
  if (column.range.holds(*value)) return value;
  bad.add(fmt::format("{:g} on {}", *value, csv_.text(row, what_.time)));
  return std::nullopt;
}

void Look::read_columns() {
  Wrong no_time;
  for (std::size_t row = 0; row < csv_.rows(); ++row) {
    times_.push_back(time_of(row));
    if (!times_.back()) no_time.add(fmt::format("\"{}\"", csv_.text(row, what_.time)));
  }
  say_of(no_time, Severity::error, "series-date",
         what_.hourly ? "time{} that cannot be read" : "date{} that cannot be read",
         what_.hourly ? "write 2026-06-10T07:00Z" : "write 2026-06-10");
  LayerFacts layer;
  layer.name = name_;
  layer.records = static_cast<long long>(csv_.rows());
  for (const SeriesColumn& column : what_.columns) {
    if (column.may_be_empty && !csv_.has(column.name)) continue;
    Wrong bad;
    FieldFacts field;
    field.name = column.name;
    field.type = "number";
    for (std::size_t row = 0; row < csv_.rows(); ++row) {
      const auto value = value_of(row, column, bad);
      values_[column.name].push_back(value);
      if (!value) continue;
      ++field.values;
      field.low = std::min(field.low.value_or(*value), *value);
      field.high = std::max(field.high.value_or(*value), *value);
    }
    say_of(bad, Severity::error, "series-value", fmt::format("value{{}} of {} that cannot be right", column.name),
           fmt::format("{}, {:g} to {:g}{}", column.unit, column.range.least, column.range.most,
                       column.may_be_empty ? ", or nothing" : ""));
    layer.fields.push_back(std::move(field));
  }
  facts_.layers.push_back(std::move(layer));
}

// In order, without gaps, each time once where that is asked for; and the span in words.
void Look::judge_times() {
  Wrong unsorted, gaps;
  std::set<sys_seconds> seen;
  std::optional<sys_seconds> before;
  for (std::size_t row = 0; row < csv_.rows(); ++row) {
    if (!times_[row]) continue;
    if (before && *times_[row] < *before) {
      unsorted.add(fmt::format("{} after a later one", csv_.text(row, what_.time)));
    }
    before = times_[row];
    if (!seen.insert(*times_[row]).second && what_.once) {
      say(Severity::error, "series-twice", fmt::format("{} stands twice", csv_.text(row, what_.time)),
          "each time once");
    }
  }
  const std::chrono::seconds step = what_.hourly ? std::chrono::hours(1) : std::chrono::days(1);
  for (auto at = seen.begin(); what_.every && at != seen.end() && std::next(at) != seen.end(); ++at) {
    const auto missing = (*std::next(at) - *at) / step - 1;
    if (missing > 0)
      gaps.add(fmt::format("{} {} after {}", missing, what_.hourly ? "hours" : "days", moment_text(*at, what_.hourly)));
  }
  say_of(unsorted, Severity::warning, "series-unsorted", "row{} out of order", "sort the rows; reading does so too");
  say_of(gaps, Severity::warning, "series-gap", "gap{}",
         what_.hourly ? "no wind is known in it" : "means and trend are of the days there are");
  if (!seen.empty()) {
    say(Severity::note, "series-span",
        fmt::format("{} rows, {} to {}", csv_.rows(), moment_text(*seen.begin(), what_.hourly),
                    moment_text(*seen.rbegin(), what_.hourly)),
        "");
  } else {
    say(Severity::warning, "series-empty", "no row with a date", "rows under the header line");
  }
}

// Lakes warm and cool slowly: a jump is most often a slip of a figure or another unit.
void Look::judge_changes() {
  std::map<sys_seconds, std::pair<double, int>> days;
  for (std::size_t row = 0; row < csv_.rows(); ++row) {
    const auto value = values_["temp_c"][row];
    if (!times_[row] || !value) continue;
    auto& [sum, count] = days[*times_[row]];
    sum += *value;
    ++count;
  }
  Wrong jumps;
  for (auto at = days.begin(); at != days.end() && std::next(at) != days.end(); ++at) {
    const auto next = std::next(at);
    const double apart = std::chrono::duration<double, std::ratio<86400>>(next->first - at->first).count();
    const double change = next->second.first / next->second.second - at->second.first / at->second.second;
    if (std::abs(change) <= kMostChange * apart) continue;
    jumps.add(fmt::format("{:+.1f} C to {}", change, moment_text(next->first, false)));
  }
  say_of(jumps, Severity::warning, "series-jump", "jump{} of the water from day to day",
         "look at the figure and its unit; degrees Celsius of the surface");
}

void Look::judge_profile() {
  struct Level {
    double depth, temperature;
    bool oxygen;
  };
  std::map<sys_seconds, std::vector<Level>> dates;
  Wrong twice, warmer_below, few, deep_start;
  bool any_oxygen = false;
  for (std::size_t row = 0; row < csv_.rows(); ++row) {
    const auto depth = values_["depth_m"][row], celsius = values_["temp_c"][row];
    if (!times_[row] || !depth || !celsius) continue;
    const auto& oxygen = values_["oxygen_mg_l"];
    const bool has_oxygen = row < oxygen.size() && oxygen[row].has_value();
    any_oxygen = any_oxygen || has_oxygen;
    dates[*times_[row]].push_back({*depth, *celsius, has_oxygen});
  }
  for (auto& [date, levels] : dates) {
    const std::string day = moment_text(date, false);
    std::stable_sort(levels.begin(), levels.end(), [](const Level& a, const Level& b) { return a.depth < b.depth; });
    for (std::size_t i = 1; i < levels.size(); ++i) {
      if (levels[i].depth == levels[i - 1].depth) twice.add(fmt::format("{:g} m on {}", levels[i].depth, day));
      const double warmer = levels[i].temperature - levels[i - 1].temperature;
      if (warmer > kMostInversion && levels[i - 1].temperature > 4) {
        warmer_below.add(fmt::format("{:g} m on {}, by {:.1f} C", levels[i].depth, day, warmer));
      }
    }
    if (levels.size() < kFewLevels) few.add(day);
    if (levels.front().depth > kNearSurface) deep_start.add(day);
  }
  say_of(twice, Severity::error, "profile-twice", "depth{} that stand twice on a date", "one place a profile");
  say_of(warmer_below, Severity::warning, "profile-inversion", "level{} warmer than the one above",
         "look at the figures: warm water floats, above 4 C");
  say_of(few, Severity::warning, "profile-few", "date{} with under three depths",
         "three depths or more; a reading every metre is best");
  say_of(deep_start, Severity::note, "profile-no-surface", "date{} without a reading in the top metre",
         "such a profile does not tell the surface temperature");
  if (!any_oxygen && !dates.empty()) {
    say(Severity::note, "profile-no-oxygen", "no oxygen: deep spots are not held against it", "a column oxygen_mg_l");
  }
}

void Look::judge_gusts() {
  Wrong weaker;
  const auto& gusts = values_["gust_mps"];
  for (std::size_t row = 0; row < gusts.size(); ++row) {
    const auto speed = values_["speed_mps"][row];
    if (gusts[row] && speed && *gusts[row] < *speed) weaker.add(csv_.text(row, what_.time));
  }
  say_of(weaker, Severity::warning, "wind-gust", "gust{} weaker than the wind", "are the columns in their places?");
}

void Look::run() {
  csv_.need(what_.time);
  for (const SeriesColumn& column : what_.columns) {
    if (!column.may_be_empty) csv_.need(column.name);
  }
  read_columns();
  judge_times();
  if (what_.kind == SeriesKind::water) judge_changes();
  if (what_.kind == SeriesKind::profile) judge_profile();
  if (what_.kind == SeriesKind::wind) judge_gusts();
  out_.files.push_back(std::move(facts_));
}

}  // namespace

void inspect_series(SeriesKind kind, const std::string& path, const std::string& key, Inspection& out) {
  Look(series_table(kind), path, key, out).run();
}

}  // namespace castplan
