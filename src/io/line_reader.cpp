// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/line_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr std::size_t kBlock = std::size_t{1} << 18;

std::string_view without_return(std::string_view line) {
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  return line;
}

}  // namespace

LineReader::LineReader(const std::string& path, std::string shown)
    : in_(path, std::ios::binary | std::ios::ate), shown_(std::move(shown)), block_(kBlock) {
  if (!in_) throw InputError(fmt::format("{}: no such file, or it cannot be opened for reading", shown_));
  bytes_ = static_cast<std::size_t>(std::max<std::streamoff>(0, in_.tellg()));
  in_.seekg(0);
  fill();
  const std::string_view start(block_.data(), end_);
  if (start.starts_with("\xFF\xFE") || start.starts_with("\xFE\xFF") || start.substr(0, 64).find('\0') != start.npos) {
    throw InputError(fmt::format("{}: is no plain text (UTF-16 or binary); save it as UTF-8 text", shown_));
  }
  if (start.starts_with("\xEF\xBB\xBF")) begin_ = 3;
  if (start.find('\n') == start.npos && start.find('\r') != start.npos) line_end_ = '\r';
}

std::vector<std::string_view> LineReader::first_lines() const {
  std::vector<std::string_view> lines;
  std::size_t at = begin_;
  constexpr std::size_t kMost = 1000;
  while (at < end_ && lines.size() < kMost) {
    const auto* found = static_cast<const char*>(std::memchr(block_.data() + at, line_end_, end_ - at));
    const bool whole_file = bytes_ <= end_;
    if (found == nullptr && !whole_file) break;
    const std::size_t stop = found == nullptr ? end_ : static_cast<std::size_t>(found - block_.data());
    lines.push_back(without_return({block_.data() + at, stop - at}));
    at = stop + 1;
  }
  return lines;
}

/// Moves what is left to the front and reads on; false when nothing came.
bool LineReader::fill() {
  const std::size_t left = end_ - begin_;
  if (left == block_.size()) {
    throw InputError(
        fmt::format("{}, line {}: is longer than {} bytes; expected a text table", shown_, number_ + 1, block_.size()));
  }
  std::memmove(block_.data(), block_.data() + begin_, left);
  begin_ = 0;
  in_.read(block_.data() + left, static_cast<std::streamsize>(block_.size() - left));
  if (in_.bad()) throw InputError(fmt::format("{}: cannot be read to its end", shown_));
  end_ = left + static_cast<std::size_t>(in_.gcount());
  return in_.gcount() > 0;
}

bool LineReader::next(std::string_view& line) {
  for (;;) {
    const char* start = block_.data() + begin_;
    const auto* found =
        end_ > begin_ ? static_cast<const char*>(std::memchr(start, line_end_, end_ - begin_)) : nullptr;
    if (found == nullptr && fill()) continue;
    if (found == nullptr && begin_ == end_) return false;
    const std::size_t length = found == nullptr ? end_ - begin_ : static_cast<std::size_t>(found - start);
    line = without_return({block_.data() + begin_, length});
    begin_ += length + (found == nullptr ? 0 : 1);
    ++number_;
    return true;
  }
}

}  // namespace castplan
