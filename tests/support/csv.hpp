// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace castplan::csv {

using Records = std::vector<std::vector<std::string>>;

/// Reads CSV by the grammar of RFC 4180, section 2, and throws at the first byte that the grammar does not have.
inline Records parse(const std::string& text) {
  Records out;
  std::size_t at = 0;
  const auto expect = [&](char letter) {
    if (at >= text.size() || text[at] != letter) throw std::runtime_error("byte " + std::to_string(at));
    ++at;
  };
  while (at < text.size()) {
    out.emplace_back();
    for (bool more = true; more;) {
      std::string field;
      if (text[at] == '"') {
        for (++at;; ++at) {
          if (at >= text.size()) throw std::runtime_error("quotation not closed");
          if (text[at] == '"') {
            if (at + 1 >= text.size() || text[at + 1] != '"') break;
            ++at;
          }
          field += text[at];
        }
        expect('"');
      } else {
        while (at < text.size() && text[at] != ',' && text[at] != '\r') {
          if (text[at] == '"' || text[at] == '\n') throw std::runtime_error("byte " + std::to_string(at));
          field += text[at++];
        }
      }
      out.back().push_back(field);
      more = at < text.size() && text[at] == ',';
      if (more) ++at;
    }
    expect('\r');
    expect('\n');
  }
  return out;
}

/// A record after the header, by column name.
inline std::map<std::string, std::string> row(const Records& records, std::size_t number) {
  std::map<std::string, std::string> out;
  for (std::size_t at = 0; at < records.at(0).size(); ++at) out[records[0][at]] = records.at(number).at(at);
  return out;
}

}  // namespace castplan::csv
