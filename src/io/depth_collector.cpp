// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/depth_collector.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "io/field_words.hpp"
#include "io/number_text.hpp"

namespace castplan {
namespace {

constexpr std::size_t kShownRows = 5;
constexpr std::size_t kChunk = 4096;
constexpr double kDeepestLake = 1642.0;  ///< metres, Lake Baikal; from memory

}  // namespace

DepthAccount::DepthAccount(const DepthSourceOptions& options, std::string shown, DepthSource& source)
    : shown_(std::move(shown)), source_(source), given_(options.unit) {
  source_.file = shown_;
}

void DepthAccount::settle_unit(std::optional<DepthUnit> stated, const std::string& by) {
  if (given_ && stated && *given_ != *stated) {
    source_.notes.push_back(fmt::format("{}: {} states the unit {}, the one given is used instead ({})", shown_, by,
                                        unit_text(*stated), unit_text(*given_)));
  }
  const std::optional<DepthUnit> unit = given_ ? given_ : stated;
  if (!unit) return;
  metres_per_ = metres_per(*unit);
  source_.unit = unit_text(*unit);
  source_.unit_from = given_ ? "given" : by;
}

void DepthAccount::unread(std::size_t line, const std::string& reason, std::string_view value) {
  ++source_.reasons[reason];
  if (source_.unread.size() >= kShownRows) return;
  std::string why = reason;
  if (!value.empty()) why += fmt::format(": \"{}\"", value.substr(0, 40));
  source_.unread.push_back({line, why});
}

std::optional<double> DepthAccount::metres(double value, std::size_t line) {
  if (!std::isfinite(value)) {
    unread(line, "its depth is no finite number");
    return std::nullopt;
  }
  if (is_filler(value)) {
    unread(line, "its depth is a filler for no data", fmt::format("{}", value));
    return std::nullopt;
  }
  if (!metres_per_) {
    throw InputError(
        fmt::format("{}: no depth unit; say which: --unit m or --unit ft (or unit = \"m\" beside the file in the lake "
                    "file), or name the column so, as in depth_ft",
                    shown_));
  }
  return value * *metres_per_;
}

std::optional<double> DepthAccount::metres(std::string_view cell, char decimal, std::size_t line) {
  if (bare(cell).empty()) {
    unread(line, "it has no depth");
    return std::nullopt;
  }
  if (const auto value = number_of(cell, decimal)) return metres(*value, line);
  if (const auto value = metres_of_text(cell, decimal)) {
    if (source_.unit.empty()) {
      source_.unit = "as written at each depth";
      source_.unit_from = fmt::format("the text \"{}\"", bare(cell));
    }
    return value;
  }
  unread(line, "its depth is not a number", bare(cell));
  return std::nullopt;
}

SoundingCollector::SoundingCollector(DepthAccount& account, Mover mover, int file, std::string swapped_mend,
                                     std::vector<Sounding>& out)
    : account_(account), mover_(std::move(mover)), file_(file), swapped_mend_(std::move(swapped_mend)), out_(out) {
  waiting_.reserve(kChunk);
}

void SoundingCollector::add(XY own, double metres, int track, std::size_t line) {
  waiting_.push_back({own, static_cast<float>(metres), track, line});
  if (waiting_.size() == kChunk) flush();
}

void SoundingCollector::flush() {
  if (!place_checked_) {
    std::vector<XY> own;
    own.reserve(waiting_.size());
    for (const Raw& raw : waiting_) own.push_back(raw.own);
    mover_ = placed(own, mover_, account_.shown(), swapped_mend_);
    place_checked_ = true;
  }
  const bool degrees = mover_.source.is_geographic();
  for (const Raw& raw : waiting_) {
    const bool on_earth = !degrees || (std::fabs(raw.own.x) <= 360 && std::fabs(raw.own.y) <= 90);
    const XY at = on_earth ? mover_(raw.own.x, raw.own.y) : XY{HUGE_VAL, HUGE_VAL};
    if (!std::isfinite(at.x) || !std::isfinite(at.y)) {
      account_.unread(raw.line, "its place is not on the earth", fmt::format("{} {}", raw.own.x, raw.own.y));
      continue;
    }
    signs_.add(static_cast<double>(raw.metres));
    out_.push_back({at, Metres32(raw.metres), file_, raw.track});
  }
  waiting_.clear();
}

void SoundingCollector::finish(const SoundingOptions& options) {
  flush();
  DepthSource& source = account_.source();
  source.used = out_.size();
  if (out_.empty()) {
    const std::string first =
        source.unread.empty()
            ? std::string()
            : fmt::format("; {} {}: {}", source.row_name, source.unread.front().line, source.unread.front().why);
    throw InputError(fmt::format("{}: none of its {} {}s holds a sounding{}; expected a place and a depth in each",
                                 account_.shown(), source.rows, source.row_name, first));
  }
  const ToDepth depth = settle_sense(signs_, options, options.transducer, account_.shown(), source);
  for (Sounding& one : out_) {
    one.depth = Metres32(static_cast<float>(depth(static_cast<double>(one.depth.value()))));
  }
  describe(out_, mover_.target, source);
}

void describe(const std::vector<Sounding>& soundings, const Projection& target, DepthSource& source) {
  if (soundings.empty()) return;
  XY low = soundings.front().at;
  XY high = low;
  double least = soundings.front().depth.value();
  double most = least;
  for (const Sounding& one : soundings) {
    low = {std::min(low.x, one.at.x), std::min(low.y, one.at.y)};
    high = {std::max(high.x, one.at.x), std::max(high.y, one.at.y)};
    least = std::min(least, static_cast<double>(one.depth.value()));
    most = std::max(most, static_cast<double>(one.depth.value()));
  }
  source.shallowest = Metres(least);
  source.deepest = Metres(most);
  if (most > kDeepestLake) {
    source.notes.push_back(
        fmt::format("{}: its deepest value is {:.0f} m, and no lake is deeper than {:.0f} m; check the unit",
                    source.file, most, kDeepestLake));
  }
  source.centre = target.to_lonlat((low + high) * 0.5);
}

}  // namespace castplan
