// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/words.hpp"

#include <algorithm>

namespace castplan {

std::string closure_words(const Closure& closure) {
  std::string out(name_of(closure.kind));
  std::replace(out.begin(), out.end(), '-', ' ');
  return out + (closure.from.empty() ? ", all year" : ", " + closure.from + " to " + closure.to);
}

}  // namespace castplan
