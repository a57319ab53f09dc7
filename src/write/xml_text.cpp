// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/xml_text.hpp"

namespace castplan {
namespace {

struct ToString : pugi::xml_writer {
  std::string text;
  void write(const void* data, std::size_t size) override { text.append(static_cast<const char*>(data), size); }
};

}  // namespace

pugi::xml_node begun(pugi::xml_document& document, const char* root) {
  pugi::xml_node declaration = document.append_child(pugi::node_declaration);
  declaration.append_attribute("version") = "1.0";
  declaration.append_attribute("encoding") = "UTF-8";
  return document.append_child(root);
}

std::string xml_text(const pugi::xml_document& document) {
  ToString out;
  document.save(out, "  ", pugi::format_indent, pugi::encoding_utf8);
  return out.text;
}

}  // namespace castplan
