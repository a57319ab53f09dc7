// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

/// One row of tests/truth/season.csv, where the source of each figure stands.
struct Truth {
  std::string inputs;
  double expected{};
  double tolerance{};
};

inline std::vector<std::string> csv_cells(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

inline Truth truth(const std::string& id) {
  std::ifstream file(CASTPLAN_SOURCE_DIR "/tests/truth/season.csv");
  for (std::string line; std::getline(file, line);) {
    const auto cells = csv_cells(line);
    if (cells.size() >= 8 && cells[0] == id) return {cells[2], std::stod(cells[3]), std::stod(cells[4])};
  }
  FAIL("tests/truth/season.csv has no row " << id);
  return {};
}

/// Holds a value to a row, within its tolerance.
inline void near_row(const char* id, double value) {
  const Truth row = truth(id);
  INFO(id << ": " << row.inputs);
  CHECK(std::abs(value - row.expected) <= row.tolerance);
}
