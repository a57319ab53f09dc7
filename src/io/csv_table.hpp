// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace castplan {

/// A comma-separated table with a header line (RFC 4180: quotes, doubled quotes inside, either line end). Blank lines
/// are passed over.
class CsvTable {
 public:
  /// Throws InputError when the file cannot be read, has no header, or a row has more cells than the header.
  CsvTable(const std::string& path, std::string shown);

  [[nodiscard]] std::size_t rows() const { return rows_.size(); }
  [[nodiscard]] bool has(std::string_view column) const;
  /// InputError that names the columns there are.
  void need(std::string_view column) const;
  /// Trimmed; empty where the row is short.
  [[nodiscard]] std::string text(std::size_t row, std::string_view column) const;
  /// InputError with the line for anything but a finite number.
  [[nodiscard]] double number(std::size_t row, std::string_view column) const;
  [[noreturn]] void fail(std::size_t row, std::string_view column, const std::string& expected) const;

 private:
  struct Row {
    int line;
    std::vector<std::string> cells;
  };
  [[nodiscard]] int find(std::string_view column) const;

  std::string shown_;
  std::vector<std::string> header_;
  std::vector<Row> rows_;
};

}  // namespace castplan
