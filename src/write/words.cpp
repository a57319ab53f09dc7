// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/words.hpp"

#include <algorithm>

#include "write/carried.hpp"

namespace castplan {

std::string closure_words(const Closure& closure) {
  std::string out(name_of(closure.kind));
  std::replace(out.begin(), out.end(), '-', ' ');
  return out + (closure.from.empty() ? ", all year" : ", " + closure.from + " to " + closure.to);
}

std::string_view side_words(const Spot& spot) {
  switch (cast_goes(spot)) {
    case CastGoes::shallower:
      return ", toward the shallow side";
    case CastGoes::deeper:
      return ", toward the deep side";
    case CastGoes::level:
      return ", along the same depth";
    case CastGoes::unknown:
      break;
  }
  return "";
}

}  // namespace castplan
