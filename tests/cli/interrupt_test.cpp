// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "cli/castplan_run.hpp"

using namespace castplan::programs;
using std::chrono::milliseconds;

namespace {

/// A run in the background, its two streams in files; -1 for an end by a signal.
class Background {
 public:
  Background(const std::vector<std::string>& words, const std::string& out, const std::string& err) {
    std::vector<char*> list;
    for (const std::string& word : words) list.push_back(const_cast<char*>(word.c_str()));
    list.push_back(nullptr);
    id_ = ::fork();
    if (id_ < 0) throw std::runtime_error("cannot fork");  // a signal to -1 would go to every process there is
    if (id_ != 0) return;
    ::dup2(::open(out.c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600), STDOUT_FILENO);
    ::dup2(::open(err.c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600), STDERR_FILENO);
    ::execv(list[0], list.data());
    ::_exit(127);
  }
  void send(int signal) const { ::kill(id_, signal); }
  /// Until it waits for the signal, but no longer than a minute: one that never does ends by it.
  void wait_until_ready() const {
    for (int ms = 0; ms < 60000 && !ready(); ++ms) std::this_thread::sleep_for(milliseconds(1));
  }

  int end() const {
    int status = 0;
    ::waitpid(id_, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  /// Its mask says whether it waits (Linux, proc(5), SigBlk).
  [[nodiscard]] bool ready() const {
    std::istringstream lines(read("/proc/" + std::to_string(id_) + "/status"));
    for (std::string line; std::getline(lines, line);) {
      if (line.starts_with("SigBlk:")) return (std::stoull(line.substr(7), nullptr, 16) >> (SIGINT - 1)) & 1U;
    }
    return false;
  }
  pid_t id_;
};

std::map<std::string, std::string> plans_in(const Scratch& scratch) {
  auto all = files_in(scratch.path());
  for (const char* own : {".stdout", ".stderr", "large.tif"}) all.erase(own);
  return all;
}

}  // namespace

TEST_CASE("an interruption ends with 130 at any stage, leaves nothing behind and the older plan as it was") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --formats geojson --out " + folder).code == 0);
  // large enough to run for some seconds on any machine: every signal comes well before its end
  const std::string small = ascii_grid(scratch, "bowl.asc", 40, 40, small_bowl);
  REQUIRE(run("gdal_translate -q -outsize 4000 4000 -r bilinear " + small + " " + scratch.path("large.tif")).code == 0);
  const auto before = plans_in(scratch);
  for (const auto& [signal, after] :
       {std::pair(SIGINT, 0), std::pair(SIGINT, 100), std::pair(SIGTERM, 300), std::pair(SIGINT, 700)}) {
    const Background run(
        {CASTPLAN_PROGRAM, "scout", scratch.path("large.tif"), "--unit", "m", "--out", folder, "--threads", "2"},
        scratch.path(".stdout"), scratch.path(".stderr"));
    run.wait_until_ready();
    std::this_thread::sleep_for(milliseconds(after));
    const auto sent = std::chrono::steady_clock::now();
    run.send(signal);
    const int code = run.end();
    const std::chrono::duration<double> waited = std::chrono::steady_clock::now() - sent;
    const std::string said = read(scratch.path(".stderr"));
    INFO("signal " << signal << " after " << after << " ms, ended " << waited.count() << " s later\n" << said);
    CHECK(code == 130);
    CHECK(waited.count() < 2);  // a person waits no longer, whatever the stage; it is some milliseconds
    CHECK(said.find("interrupted; nothing was written") != std::string::npos);
    if (after > 0) CHECK(said.find("Lake Ossilby") != std::string::npos);
    CHECK(read(scratch.path(".stdout")).empty());
    CHECK(plans_in(scratch) == before);
  }
}

TEST_CASE("whenever a signal comes, the folder holds the old plan or the new one, whole") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  const std::vector<std::string> words = {CASTPLAN_PROGRAM, "scout",  kSample,   "--water-temp", "66F",
                                          "--trend",        "rising", "--quiet", "--out",        folder};
  const auto plan_again = [&](const std::string& options) {
    REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --out " + folder + options).code == 0);
    return files_in(folder);
  };
  const auto started = std::chrono::steady_clock::now();
  const auto fresh = plan_again(" --water-temp 66F --trend rising");
  const auto whole = std::chrono::duration_cast<milliseconds>(std::chrono::steady_clock::now() - started);
  const auto older = plan_again("");
  REQUIRE(older != fresh);
  std::filesystem::copy(folder, scratch.path("older"));
  int finished = 0, interrupted = 0;
  // up to half as long again as a whole run takes, so that some signals meet the writing and some nothing at all
  for (int part = 1; part <= 12; ++part) {
    const Background run(words, scratch.path(".stdout"), scratch.path(".stderr"));
    run.wait_until_ready();
    std::this_thread::sleep_for(whole * part / 8);
    run.send(SIGINT);
    const int code = run.end();
    INFO("part " << part << " of " << whole.count() << " ms");
    REQUIRE((code == 0 || code == 130));
    (code == 0 ? finished : interrupted) += 1;
    CHECK(files_in(folder) == (code == 0 ? fresh : older));
    if (code != 0) continue;
    std::filesystem::remove_all(folder);
    std::filesystem::copy(scratch.path("older"), folder);
  }
  CHECK(interrupted > 0);
  CHECK(finished > 0);
}
