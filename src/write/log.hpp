// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

namespace castplan {

/// True when a log is as we wrote it: nobody has filled in a cell, or saved it in another form.
bool is_blank_log(std::string_view bytes);

}  // namespace castplan
