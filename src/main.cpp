// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/cli/program.hpp"

int main(int count, char** words) { return castplan::run(count, words); }
