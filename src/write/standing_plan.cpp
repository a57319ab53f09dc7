// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "castplan/write/folder.hpp"
#include "write/carried.hpp"
#include "write/plain_text.hpp"

namespace castplan {
namespace {

// Reads just what our own summary holds, from the front; anything else gives nothing. Not a reader of JSON at large.
class Scan {
 public:
  explicit Scan(std::string_view text) : rest_(text) {}

  // Goes on behind the next `"key": `.
  bool find_key(std::string_view key) {
    const std::string quoted = fmt::format("\"{}\": ", key);
    const std::size_t at = rest_.find(quoted);
    if (at == std::string_view::npos) return false;
    rest_.remove_prefix(at + quoted.size());
    return true;
  }
  bool skip(char letter) {
    if (rest_.empty() || rest_.front() != letter) return false;
    rest_.remove_prefix(1);
    return true;
  }
  // A text in quotes; escapes stand for themselves, which is enough for a name in a message.
  std::string text() {
    std::string out;
    if (!skip('"')) return out;
    while (!rest_.empty() && rest_.front() != '"') {
      if (rest_.front() == '\\' && rest_.size() > 1) rest_.remove_prefix(1);
      out += rest_.front();
      rest_.remove_prefix(1);
    }
    skip('"');
    return out;
  }

 private:
  std::string_view rest_;
};

}  // namespace

std::string plan_in(const std::string& folder) {
  std::ifstream in(std::filesystem::path(folder) / "summary.json", std::ios::binary);
  if (!in) return {};
  std::ostringstream bytes;
  bytes << in.rdbuf();
  const std::string text = bytes.str();
  Scan scan(text);
  if (!scan.find_key("schema") || !scan.find_key("lake") || !scan.find_key("name")) return {};
  const std::string lake = shortened(one_line(scan.text()), 100);
  if (lake.empty() || !scan.find_key("conditions") || !scan.find_key("date")) return {};
  const std::string date = one_line(scan.text());
  std::vector<std::string> phases;
  if (scan.find_key("phases") && scan.skip('[')) {
    do {
      phases.push_back(one_line(scan.text()));
    } while (scan.skip(',') && scan.skip(' '));
  }
  return fmt::format("the plan of {}",
                     joined({lake, date.empty() ? shortened(joined(phases, ", "), 100) : date}, ", "));
}

}  // namespace castplan
