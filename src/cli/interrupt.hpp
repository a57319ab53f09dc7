// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace castplan {

/// Ctrl-C or a polite kill was noticed: exit code 130.
struct Interrupted {};

/// From now on SIGINT and SIGTERM are only noted; a second one ends the process at once.
void watch_for_interrupt();

/// Throws Interrupted once a signal was noted. Called between stages: nothing is half done there.
void stop_if_interrupted();

}  // namespace castplan
