// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace castplan {

/// The whole program: parses the command line, runs the verb, turns errors into exit codes (0 done, 2 command line,
/// 3 input, 4 output, 130 interrupted, 1 a bug of ours). Results go to stdout, progress and warnings to stderr.
int run(int count, char** words);

}  // namespace castplan
