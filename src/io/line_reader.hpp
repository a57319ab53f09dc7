// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

namespace castplan {

/// A text file line by line, in blocks, so that its size does not matter. Any of the usual line ends; a UTF-8 mark at
/// the start is passed over.
class LineReader {
 public:
  /// InputError when the file cannot be opened, or is UTF-16.
  LineReader(const std::string& path, std::string shown);

  /// The lines of the first block, without reading on: to look at before reading.
  [[nodiscard]] std::vector<std::string_view> first_lines() const;
  /// The next line; false at the end. Valid until the next call. InputError when reading fails, or a line has no end.
  bool next(std::string_view& line);
  [[nodiscard]] std::size_t number() const { return number_; }  ///< of the line read last, from 1
  [[nodiscard]] std::size_t file_bytes() const { return bytes_; }

 private:
  bool fill();

  std::ifstream in_;
  std::string shown_;
  std::vector<char> block_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
  std::size_t number_ = 0;
  std::size_t bytes_ = 0;
  char line_end_ = '\n';
};

}  // namespace castplan
