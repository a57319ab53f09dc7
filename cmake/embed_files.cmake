# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
# Run by castplan_embed: bytes as numbers, so that any text survives and no literal grows too long.
file(WRITE ${HEADER}
"#pragma once
#include <span>
#include <string_view>
namespace ${SPACE} {
struct File {
  std::string_view name;
  std::string_view text;
};
/// By name, ascending.
std::span<const File> files();
}  // namespace ${SPACE}
")
set(arrays "")
set(rows "")
set(number 0)
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME)
  file(READ ${file} hex HEX)
  string(LENGTH "${hex}" digits)
  math(EXPR bytes "${digits} / 2")
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," numbers "${hex}")
  string(APPEND arrays "const unsigned char text_${number}[] = {${numbers}0x00};\n")
  string(APPEND rows "    {\"${name}\", {reinterpret_cast<const char*>(text_${number}), ${bytes}}},\n")
  math(EXPR number "${number} + 1")
endforeach()
file(WRITE ${SOURCE}
"#include \"${SPACE}.hpp\"
namespace ${SPACE} {
namespace {
${arrays}}  // namespace
std::span<const File> files() {
  static const File rows[] = {
${rows}  };
  return rows;
}
}  // namespace ${SPACE}
")
