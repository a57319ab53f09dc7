// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

namespace castplan {

/// From now on SIGINT and SIGTERM end the process with exit code 130, at once, however long the stage at hand takes.
/// Call it before any other thread begins: threads begun later leave these signals to the one that waits for them.
void watch_for_interrupt();

/// What to say on stderr before "interrupted", such as which plan still stands.
void on_interrupt(std::function<void()> say);

/// From now on an interruption comes too late and is not heeded: the plan that is being written gets whole, which
/// takes moments. Does not return once an interruption is under way.
void finish_uninterrupted();

}  // namespace castplan
