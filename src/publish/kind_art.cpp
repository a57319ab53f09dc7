// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/kind_art.hpp"

#include <algorithm>
#include <cassert>
#include <iterator>

namespace castplan {
namespace {

constexpr KindMark kMarks[] = {
    {Kind::pool, true, ""},
    {Kind::drop_off, false, ""},
    {Kind::weed_line, false, ""},
    {Kind::hump, true, ""},
    {Kind::saddle, false, "M-9-6q9 10 18 0M-9 6q9-10 18 0"},
    {Kind::flat, true, ""},
    {Kind::channel, false, ""},
    {Kind::point, false, ""},
    {Kind::inside_turn, false, ""},
    {Kind::narrows, false, "M-8-8q5 8 0 16M8-8q-5 8 0 16"},
    {Kind::bay, true, ""},
    {Kind::wood, false, "M-8 5L8-5M-2 1l-3-7M2-1l4 7"},
    {Kind::rock, false, "M-8 6l3-9 6-2 6 6 1 5z"},
    {Kind::weeds, true, ""},
    {Kind::dock, false, "M-8-5h16M-8 3h16M-5-5v12M5-5v12"},
    {Kind::inflow, false, "M-9 0h15M1-6l6 6-6 6"},
    {Kind::cover, false, ""},
    {Kind::hazard, true, "M0-9l9 16h-18zM0-3v5"},
    {Kind::closure, true, "M-7-7L7 7M7-7L-7 7"},
    {Kind::launch, false, "M-9-2h18l-4 8h-10zM0-2v-8"},
    {Kind::spawning_ground, true, ""},
};

}  // namespace

const KindMark& mark_of(Kind kind) {
  const auto* found =
      std::find_if(std::begin(kMarks), std::end(kMarks), [&](const KindMark& row) { return row.kind == kind; });
  assert(found != std::end(kMarks));
  return *found;
}

}  // namespace castplan
