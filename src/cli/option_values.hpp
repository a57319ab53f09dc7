// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/geo/quantity.hpp"
#include "castplan/io/raster.hpp"

namespace castplan {

/// An option's value through its reader, or nothing where it was not given; what the reader says gets the option's name
/// in front, as a UsageError.
template <class Read>
auto given(std::string_view option, const std::string& text, Read read)
    -> std::optional<decltype(read(std::string_view{}))> {
  if (text.empty()) return std::nullopt;
  try {
    return read(text);
  } catch (const InputError& error) {
    throw UsageError(fmt::format("{} {}: {}", option, text, error.what()));
  }
}

/// A length above 0. Throws InputError.
Metres positive_length(std::string_view text);

/// Throws UsageError, with the nearest known word, for a text that is neither empty nor known.
void one_of(std::string_view option, const std::string& text, const std::vector<std::string_view>& known);

/// --sense: depth, height or elevation; nothing where it was not given.
std::optional<Sense> sense_given(const std::string& text);

/// --threads: 0 (all cores) or more.
int threads_given(int threads);

/// For the parser: what is wrong with the text of a whole number, or nothing.
std::string not_whole(const std::string& text);

}  // namespace castplan
