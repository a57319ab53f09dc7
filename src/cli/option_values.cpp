// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/option_values.hpp"

#include <algorithm>
#include <charconv>

#include "castplan/geo/quantity_text.hpp"

namespace castplan {

Metres positive_length(std::string_view text) {
  const Metres length = parse_length(text);
  if (!(length > Metres(0))) throw InputError("must be more than 0");
  return length;
}

void one_of(std::string_view option, const std::string& text, const std::vector<std::string_view>& known) {
  if (text.empty() || std::find(known.begin(), known.end(), text) != known.end()) return;
  const std::string nearest = nearest_name(text, known);
  throw UsageError(fmt::format("{} {}: not known{}; known are {}", option, text,
                               nearest.empty() ? "" : fmt::format(", did you mean '{}'?", nearest), listed(known)));
}

std::optional<Sense> sense_given(const std::string& text) {
  one_of("--sense", text, {"depth", "height", "elevation"});
  if (text.empty()) return std::nullopt;
  if (text == "height") return Sense::height;
  return text == "elevation" ? Sense::elevation : Sense::depth;
}

int threads_given(int threads) {
  if (threads < 0) throw UsageError(fmt::format("--threads {}: give 0 (all cores) or more", threads));
  return threads;
}

std::string not_whole(const std::string& text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() ? "" : fmt::format("{} is no whole number", text);
}

}  // namespace castplan
