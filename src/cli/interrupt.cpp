// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/interrupt.hpp"

#include <csignal>

namespace castplan {

namespace {

volatile std::sig_atomic_t noted = 0;

extern "C" void note_signal(int signal) {
  noted = 1;
  std::signal(signal, SIG_DFL);
}

}  // namespace

void watch_for_interrupt() {
  std::signal(SIGINT, note_signal);
  std::signal(SIGTERM, note_signal);
}

void stop_if_interrupted() {
  if (noted != 0) throw Interrupted{};
}

}  // namespace castplan
