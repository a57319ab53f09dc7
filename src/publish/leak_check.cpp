// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/leak_check.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

#include "publish/number_scan.hpp"
#include "publish/secret_index.hpp"

namespace castplan {
namespace {

constexpr std::size_t kShortestRun = 16;  // letters of base 64 that could hold a coordinate

/// The bytes of a file with what is public blanked out, so that offsets stay.
std::string without_blocks(const OutputFile& file, const PublicBlocks& allowed) {
  const std::string& bytes = file.bytes;
  std::string out = bytes;
  const auto own = allowed.by_file.find(file.name);
  if (own == allowed.by_file.end()) return out;
  for (const std::string& block : own->second) {
    if (block.empty()) continue;
    for (std::size_t at = bytes.find(block); at != std::string::npos; at = bytes.find(block, at + block.size())) {
      std::fill_n(out.begin() + static_cast<std::ptrdiff_t>(at), block.size(), ' ');
    }
  }
  return out;
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char each) { return static_cast<char>(std::tolower(each)); });
  return text;
}

/// Looks through one text and tells where it stands in its file.
class Look {
 public:
  Look(std::string file, const SecretIndex& index, const DrawnMap* map, std::vector<Leak>& leaks)
      : file_(std::move(file)), index_(index), map_(map), leaks_(leaks) {}

  void at_text(std::string_view raw, std::size_t base) {
    const Decoded text = decoded(raw);
    const auto tell = [&](std::size_t at, const std::string& what) {
      leaks_.push_back({file_, base + (at < text.from.size() ? text.from[at] : 0), what});
    };
    for (const SecretFound& found : index_.places_in(text.text)) tell(found.at, found.what);
    if (map_ != nullptr) {
      for (const SecretFound& found : index_.drawn_in(text.text, map_->plane)) tell(found.at, found.what);
    }
    const std::string small = lower(text.text);
    for (const SecretFound& found : index_.codes_in(small)) tell(found.at, found.what);
    for (const SecretFound& found : index_.texts_in(small)) tell(found.at, found.what);
  }

  void in_base64(std::string_view raw) {
    const auto of_base64 = [](char each) {
      return std::isalnum(static_cast<unsigned char>(each)) != 0 || each == '+' || each == '/' || each == '-' ||
             each == '_';
    };
    for (std::size_t at = 0; at < raw.size();) {
      std::size_t end = at;
      while (end < raw.size() && of_base64(raw[end])) ++end;
      if (end - at >= kShortestRun) {
        const std::size_t before = leaks_.size();
        at_text(from_base64(raw.substr(at, end - at)), 0);
        for (std::size_t i = before; i < leaks_.size(); ++i) {
          leaks_[i].offset = at;
          leaks_[i].what += ", in base 64";
        }
      }
      at = end + 1;
    }
  }

  void for_pictures(std::string_view raw) {
    static constexpr std::string_view kMarks[] = {"\x89PNG",    "\xFF\xD8\xFF", "GIF8",   "RIFF",    "II*",
                                                  "data:image", "<img",         "<image", "<canvas", "<object",
                                                  "<embed",     "<iframe",      "<vid"};
    const std::string plain = lower(std::string(raw));
    for (const std::string_view mark : kMarks) {
      const std::size_t at = mark[0] == '<' || mark[0] == 'd' ? plain.find(mark) : raw.find(mark);
      if (at != std::string_view::npos) {
        leaks_.push_back({file_, at, "a picture: its pixels could hold a place, and the site has none"});
      }
    }
  }

 private:
  std::string file_;
  const SecretIndex& index_;
  const DrawnMap* map_;
  std::vector<Leak>& leaks_;
};

}  // namespace

std::vector<Leak> find_leaks(const std::vector<OutputFile>& files, const PublicBlocks& allowed,
                             const std::vector<DrawnMap>& maps, const Secrets& secrets) {
  const SecretIndex index(secrets);
  std::vector<Leak> leaks;
  for (const OutputFile& file : files) {
    const auto map = std::find_if(maps.begin(), maps.end(), [&](const DrawnMap& one) { return one.file == file.name; });
    Look look(file.name, index, map == maps.end() ? nullptr : &*map, leaks);
    const std::string bytes = without_blocks(file, allowed);
    look.at_text(bytes, 0);
    look.in_base64(bytes);
    look.for_pictures(bytes);
    const std::size_t before = leaks.size();
    Look(file.name, index, nullptr, leaks).at_text(file.name, 0);
    for (std::size_t at = before; at < leaks.size(); ++at) {
      leaks[at].offset = 0;
      leaks[at].what += ", in the file's name";
    }
  }
  std::stable_sort(leaks.begin(), leaks.end(), [](const Leak& a, const Leak& b) {
    return a.file != b.file ? a.file < b.file : a.offset < b.offset;
  });
  return leaks;
}

}  // namespace castplan
