// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <stdexcept>
#include <string>
#include <string_view>

namespace castplan {

/// Bad input is an exception, thrown where the input enters and caught in `main`, which turns the class into an exit
/// code. The text says where, what was found, what was expected and what to do.

/// The command line is wrong: exit code 2.
struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The input data are unusable: exit code 3.
struct InputError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The output could not be written: exit code 4.
struct OutputError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The known name nearest to what was written (edit distance at most 3), or empty: for "did you mean".
std::string nearest_name(std::string_view written, std::span<const std::string_view> known);
/// "a, b, c": for "known are ...".
std::string listed(std::span<const std::string_view> names);

}  // namespace castplan
