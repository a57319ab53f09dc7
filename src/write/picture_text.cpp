// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <array>
#include <cstdint>

#include "write/html_text.hpp"
#include "write/picture.hpp"
#include "write/plain_text.hpp"

namespace castplan::sheet {
namespace {

// ISO/IEC 15948, annex D: the cyclic redundancy code of a chunk's type and data.
std::uint32_t checksum(std::string_view bytes) {
  std::uint32_t code = 0xFFFFFFFFU;
  for (const char byte : bytes) {
    code ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) code = (code & 1U) != 0U ? 0xEDB88320U ^ code >> 1U : code >> 1U;
  }
  return code ^ 0xFFFFFFFFU;
}

std::string four_bytes(std::uint32_t number) {
  std::string out;
  for (const unsigned shift : {24U, 16U, 8U, 0U}) out += static_cast<char>(static_cast<unsigned char>(number >> shift));
  return out;
}

// Keyword, not compressed, no language, no translated keyword, UTF-8.
std::string text_chunk(std::string_view keyword, const std::string& text) {
  std::string data = "iTXt";
  data.append(keyword).append(5, '\0').append(one_line(text));
  return four_bytes(static_cast<std::uint32_t>(data.size() - 4)) + data + four_bytes(checksum(data));
}

}  // namespace

std::string with_png_text(const std::string& png, const std::string& title, const std::string& text) {
  // signature of 8 bytes, then the head: length, type, 13 bytes, code
  constexpr std::size_t kAfterHead = 8 + 4 + 4 + 13 + 4;
  return png.substr(0, kAfterHead) + text_chunk("Title", title) + text_chunk("Description", text) +
         png.substr(kAfterHead);
}

std::string with_svg_text(const std::string& drawn, const std::string& title, const std::string& text) {
  // cairo counts the surfaces of a program and names each by its number, which nothing in the drawing uses
  std::string svg = drawn;
  const std::size_t id = svg.find(" id=\"surface");
  if (id != std::string::npos) svg.erase(id, svg.find('"', id + 5) + 1 - id);
  const std::size_t tag = svg.find("<svg ");
  const std::size_t end = svg.find('>', tag);
  return svg.substr(0, tag) + "<svg role=\"img\" " + svg.substr(tag + 5, end - tag - 4) + "\n<title>" + escaped(title) +
         "</title>\n<desc>" + escaped(text) + "</desc>" + svg.substr(end + 1);
}

}  // namespace castplan::sheet
