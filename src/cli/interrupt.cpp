// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/interrupt.hpp"

#include <unistd.h>

#include <csignal>
#include <iostream>
#include <mutex>
#include <thread>

namespace castplan {

namespace {

std::mutex lock;
bool too_late = false;             // guarded by lock
std::function<void()> last_words;  // guarded by lock

// An ordinary thread, since hardly anything may be done in a signal handler. It ends the process with the lock held,
// so that nothing can begin to be written any more.
[[noreturn]] void wait_for(sigset_t signals) {
  for (;;) {
    int signal = 0;
    if (sigwait(&signals, &signal) != 0) continue;
    const std::lock_guard hold(lock);
    if (too_late) continue;
    try {
      if (last_words) last_words();
    } catch (...) {  // what stands in the folder cannot be said; the rest still can
    }
    std::cerr << "castplan: interrupted; nothing was written\n" << std::flush;
    _exit(130);
  }
}

}  // namespace

void watch_for_interrupt() {
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  std::thread(wait_for, signals).detach();
}

void on_interrupt(std::function<void()> say) {
  const std::lock_guard hold(lock);
  last_words = std::move(say);
}

void finish_uninterrupted() {
  const std::lock_guard hold(lock);
  too_late = true;
}

}  // namespace castplan
