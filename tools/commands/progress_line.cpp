#include "tools/commands/progress_line.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

#include "tools/commands/sweep_progress.hpp"

namespace dullcast::commands {
namespace {

constexpr double first_redraw = 1.0, redraw = 0.1;         // s, on a terminal
constexpr double first_line = 2.0, longest_pause = 300.0;  // s, elsewhere

}  // namespace

ProgressLine::ProgressLine(std::string what)
    : what_(std::move(what)),
      terminal_(isatty(STDERR_FILENO) == 1),
      began_(std::chrono::steady_clock::now()),
      last_(began_),
      pause_(terminal_ ? first_redraw : first_line) {}

ProgressLine::~ProgressLine() {
  if (shown_) std::fprintf(stderr, "\r\033[K");
}

void ProgressLine::tell(double done, double all) {
  const auto now = std::chrono::steady_clock::now();
  if (!(all > 0.0) || std::chrono::duration<double>(now - last_).count() < pause_) return;
  last_ = now;
  // Lines in a log come ever more rarely, so that long work fills no disk.
  pause_ = terminal_ ? redraw : std::min(2.0 * pause_, longest_pause);
  const double share = std::clamp(done / all, 0.0, 1.0);
  const double seconds = std::chrono::duration<double>(now - began_).count();
  const std::string left =
      share > 0.0 ? ", about " + lasting(std::ceil(seconds * (1.0 - share) / share)) + " to go" : "";
  std::fprintf(stderr, terminal_ ? "\r\033[K%s: %d %%%s" : "%s: %d %%%s\n", what_.c_str(),
               static_cast<int>(100.0 * share), left.c_str());
  shown_ = terminal_;
  std::fflush(stderr);
}

void ProgressLine::say(const std::string& sentence) {
  std::fprintf(stderr, "%s%s\n", shown_ ? "\r\033[K" : "", sentence.c_str());
  std::fflush(stderr);
  shown_ = false;
}

}  // namespace dullcast::commands
