// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/weed_runs.hpp"

#include <algorithm>
#include <cmath>

#include "features/corners.hpp"

namespace castplan {

namespace {

/// Places alike: with plants, bare, or hidden.
enum class State { plants, bare, hidden };
struct Stretch {
  State state;
  std::size_t first;
  std::size_t last;  ///< included
};

State state_of(const WeedPlace& place) {
  if (place.hidden) return State::hidden;
  // a bank that is too steep does not part an edge: grades near the limit would tear it to shreds
  return place.bare && place.bare != WeedLoss::steepness ? State::bare : State::plants;
}

Metres length_of(const std::vector<WeedPlace>& places, std::size_t first, std::size_t last) {
  Metres sum(0);
  for (std::size_t i = first; i < last; ++i) sum += distance(places[i].at, places[i + 1].at);
  return sum;
}

// From the last place with plants before a stretch to the first one behind it.
Metres width_of(const std::vector<WeedPlace>& places, const Stretch& stretch) {
  const std::size_t first = stretch.first > 0 ? stretch.first - 1 : 0;
  return length_of(places, first, std::min(stretch.last + 1, places.size() - 1));
}

std::vector<Stretch> stretches_of(const std::vector<State>& states) {
  std::vector<Stretch> found;
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (found.empty() || found.back().state != states[i]) found.push_back({states[i], i, i});
    found.back().last = i;
  }
  return found;
}

void assign(std::vector<State>& states, const Stretch& stretch, State state) {
  std::fill(states.begin() + static_cast<std::ptrdiff_t>(stretch.first),
            states.begin() + static_cast<std::ptrdiff_t>(stretch.last) + 1, state);
}

// Short bare stretches between plants are passed over; then plants that are too short for an edge are left out.
std::vector<Stretch> settled(const std::vector<WeedPlace>& places, const DetectOptions& options) {
  std::vector<State> states;
  for (const WeedPlace& place : places) states.push_back(state_of(place));
  const auto raw = stretches_of(states);
  for (std::size_t i = 1; i + 1 < raw.size(); ++i) {
    const bool between = raw[i - 1].state == State::plants && raw[i + 1].state == State::plants;
    if (raw[i].state == State::bare && between && width_of(places, raw[i]) < options.weed_gap) {
      assign(states, raw[i], State::plants);
    }
  }
  const auto joined = stretches_of(states);
  for (std::size_t i = 0; i < joined.size(); ++i) {
    if (joined[i].state != State::plants) continue;
    if (length_of(places, joined[i].first, joined[i].last) >= options.weed_length) continue;
    const bool by_bare =
        (i > 0 && joined[i - 1].state == State::bare) || (i + 1 < joined.size() && joined[i + 1].state == State::bare);
    assign(states, joined[i], by_bare ? State::bare : State::hidden);
  }
  return stretches_of(states);
}

// What keeps most of a stretch bare; the first of equals.
WeedLoss why_bare(const std::vector<WeedPlace>& places, const Stretch& stretch) {
  int counts[4] = {};
  for (std::size_t i = stretch.first; i <= stretch.last; ++i) {
    if (places[i].bare) ++counts[static_cast<std::size_t>(*places[i].bare)];
  }
  return static_cast<WeedLoss>(std::max_element(std::begin(counts), std::end(counts)) - std::begin(counts));
}

WeedGap gap_of(const std::vector<WeedPlace>& places, const Stretch& stretch) {
  const std::size_t before = stretch.first > 0 ? stretch.first - 1 : 0;
  const std::size_t behind = std::min(stretch.last + 1, places.size() - 1);
  return {places[before].at, places[behind].at, width_of(places, stretch), why_bare(places, stretch)};
}

// A closed line is begun where its longest stretch without plants begins, or ends where that is too short to part it;
// nothing to do where there is none.
void begin_at_gap(std::vector<WeedPlace>& places, const DetectOptions& options) {
  places.pop_back();
  const std::size_t count = places.size();
  const auto has_plants = [&](std::size_t i) { return state_of(places[i % count]) == State::plants; };
  std::size_t longest = 0, begin = 0;
  for (std::size_t i = 0; i < count; ++i) {
    if (has_plants(i) || !has_plants(i + count - 1)) continue;
    std::size_t size = 1;
    while (!has_plants(i + size)) ++size;
    if (size <= longest) continue;
    longest = size;
    begin = i;
  }
  if (longest > 0) {
    std::rotate(places.begin(), places.begin() + static_cast<std::ptrdiff_t>(begin), places.end());
    const bool all_bare = std::all_of(places.begin(), places.begin() + static_cast<std::ptrdiff_t>(longest),
                                      [](const WeedPlace& each) { return state_of(each) == State::bare; });
    if (all_bare && width_of(places, {State::bare, 0, longest - 1}) < options.weed_gap) {
      std::rotate(places.begin(), places.begin() + static_cast<std::ptrdiff_t>(longest), places.end());
    }
  }
  places.push_back(places.front());
}

WeedRun run_of(const std::vector<WeedPlace>& places, const std::vector<Stretch>& all, std::size_t number,
               const DetectOptions& options) {
  const Stretch& own = all[number];
  WeedRun run;
  run.places.assign(places.begin() + static_cast<std::ptrdiff_t>(own.first),
                    places.begin() + static_cast<std::ptrdiff_t>(own.last) + 1);
  if (number > 0 && all[number - 1].state == State::bare) run.gaps.push_back(gap_of(places, all[number - 1]));
  std::vector<State> states;
  for (const WeedPlace& place : run.places) states.push_back(place.bare ? State::bare : State::plants);
  for (const Stretch& inner : stretches_of(states)) {
    // shorter ones count in the density alone
    if (inner.state != State::bare || width_of(run.places, inner) < options.weed_gap * 0.5) continue;
    run.gaps.push_back(gap_of(run.places, inner));
  }
  if (number + 1 < all.size() && all[number + 1].state == State::bare) {
    run.gaps.push_back(gap_of(places, all[number + 1]));
  }
  return run;
}

}  // namespace

Line line_of(const std::vector<WeedPlace>& places) {
  Line line;
  for (const WeedPlace& place : places) {
    if (line.empty() || !(line.back() == place.at)) line.push_back(place.at);
  }
  return line;
}

std::vector<WeedRun> weed_runs(std::vector<WeedPlace> places, bool closed, const DetectOptions& options) {
  std::vector<WeedRun> runs;
  if (places.size() < 2) return runs;
  if (closed) begin_at_gap(places, options);
  const auto all = settled(places, options);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].state == State::plants) runs.push_back(run_of(places, all, i, options));
  }
  // a closed line ends with the place that it begins with: the gap there is one
  if (closed && !runs.empty() && all.size() > 2 && all.front().state == State::bare &&
      all.back().state == State::bare && all.back().first == all.back().last) {
    runs.back().gaps.back() = gap_of(places, all.front());
    runs.back().gaps.back().from = places[all.back().first - 1].at;
    runs.front().gaps.front().from = runs.back().gaps.back().from;
    if (runs.size() == 1) runs.front().gaps.pop_back();
  }
  return runs;
}

namespace {

WeedPlace between(const std::vector<WeedPlace>& places, double number) {
  const auto before = static_cast<std::size_t>(number);
  const double share = number - static_cast<double>(before);
  WeedPlace place = places[std::min(before + (share > 0.5 ? 1 : 0), places.size() - 1)];
  if (share > 0) place.at = places[before].at + (places[before + 1].at - places[before].at) * share;
  return place;
}

// True where a gap ends at one of the places, or begins there.
bool at_any(const WeedGap& gap, const std::vector<WeedPlace>& places) {
  return std::any_of(places.begin(), places.end(),
                     [&](const WeedPlace& place) { return place.at == gap.from || place.at == gap.to; });
}

/// The number, with a fraction, of the place that lies so far along the run.
double number_at(const std::vector<double>& along, double wanted) {
  const auto next = std::upper_bound(along.begin() + 1, along.end() - 1, wanted);
  const double before = *(next - 1);
  return static_cast<double>(next - 1 - along.begin()) + (*next > before ? (wanted - before) / (*next - before) : 0);
}

/// What lies between two numbers of places, with the gaps that lie on it or end at it.
WeedRun part_of(const WeedRun& run, double from, double to) {
  WeedRun part;
  part.places.push_back(between(run.places, from));
  for (auto i = static_cast<std::size_t>(from) + 1; static_cast<double>(i) < to; ++i) {
    part.places.push_back(run.places[i]);
  }
  part.places.push_back(between(run.places, to));
  for (const WeedGap& gap : run.gaps) {
    if (at_any(gap, part.places)) part.gaps.push_back(gap);
  }
  return part;
}

}  // namespace

std::vector<WeedRun> cut_run(const WeedRun& run, Metres step, Metres longest) {
  std::vector<double> along{0};
  for (std::size_t i = 1; i < run.places.size(); ++i) {
    along.push_back(along.back() + distance(run.places[i - 1].at, run.places[i].at).value());
  }
  std::vector<std::size_t> ends = corners(line_of(run.places), step);
  ends.push_back(run.places.size() - 1);
  std::vector<WeedRun> parts;
  double from = 0;
  for (const std::size_t end : ends) {
    const double start = along[static_cast<std::size_t>(from)], whole = along[end] - start;
    const int count = std::max(1, static_cast<int>(std::ceil(whole / longest.value() - 1e-9)));
    for (int part = 1; part <= count; ++part) {
      const double to = part == count ? static_cast<double>(end) : number_at(along, start + whole * part / count);
      parts.push_back(part_of(run, from, to));
      from = to;
    }
  }
  return parts;
}

}  // namespace castplan
