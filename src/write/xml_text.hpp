// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <pugixml.hpp>
#include <string>

namespace castplan {

/// Begins a document: its declaration, and its root, which comes back.
pugi::xml_node begun(pugi::xml_document& document, const char* root);

/// The whole document in UTF-8.
std::string xml_text(const pugi::xml_document& document);

}  // namespace castplan
