// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "castplan/write/text.hpp"
#include "write/plain_text.hpp"

namespace castplan {
namespace {

void append_escaped(std::string& out, std::string_view value) {
  for (const char letter : valid_utf8(value)) {
    switch (letter) {
      case '"':
        out += "\\\"";
        break;
      case '\\':
        out += "\\\\";
        break;
      case '\n':
        out += "\\n";
        break;
      case '\r':
        out += "\\r";
        break;
      case '\t':
        out += "\\t";
        break;
      default:
        if (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f) {
          out += fmt::format("\\u{:04x}", static_cast<unsigned char>(letter));
        } else {
          out += letter;
        }
    }
  }
}

}  // namespace

void JsonText::new_line() {
  out_ += '\n';
  out_.append(2 * stack_.size(), ' ');
}

void JsonText::before_value(bool container) {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (stack_.empty()) return;
  const bool first = stack_.back() == 'a';
  if (!first) out_ += ',';
  if (container && stack_.size() <= spread_) {
    new_line();
    stack_.back() = 'B';
  } else {
    if (!first) out_ += ' ';
    if (first) stack_.back() = 'A';
  }
}

JsonText& JsonText::begin_object() {
  before_value(true);
  out_ += '{';
  stack_ += 'o';
  return *this;
}

JsonText& JsonText::end_object() {
  const bool spread = stack_.back() == 'O' && stack_.size() <= spread_;
  stack_.pop_back();
  if (spread) new_line();
  out_ += '}';
  return *this;
}

JsonText& JsonText::begin_array() {
  before_value(true);
  out_ += '[';
  stack_ += 'a';
  return *this;
}

JsonText& JsonText::end_array() {
  const bool spread = stack_.back() == 'B';
  stack_.pop_back();
  if (spread) new_line();
  out_ += ']';
  return *this;
}

JsonText& JsonText::key(std::string_view name) {
  const bool first = stack_.back() == 'o';
  if (!first) out_ += ',';
  if (stack_.size() <= spread_) {
    new_line();
  } else if (!first) {
    out_ += ' ';
  }
  stack_.back() = 'O';
  out_ += '"';
  append_escaped(out_, name);
  out_ += "\": ";
  after_key_ = true;
  return *this;
}

JsonText& JsonText::text(std::string_view value) {
  before_value(false);
  out_ += '"';
  append_escaped(out_, value);
  out_ += '"';
  return *this;
}

JsonText& JsonText::number(double value, int decimals) {
  const std::string digits = fixed(value, decimals);
  return raw(digits.empty() ? "null" : digits);
}

JsonText& JsonText::integer(long long value) { return raw(fmt::format("{}", value)); }

JsonText& JsonText::boolean(bool value) { return raw(value ? "true" : "false"); }

JsonText& JsonText::null() { return raw("null"); }

JsonText& JsonText::raw(std::string_view json) {
  before_value(json.starts_with('{') || json.starts_with('['));
  out_ += json;
  return *this;
}

}  // namespace castplan
