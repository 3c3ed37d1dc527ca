#include "tools/commands/sweep_progress.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace dullcast::commands {
namespace {

constexpr int bar_width = 24;
constexpr double redraw = 0.2;                             // s
constexpr double first_line = 2.0, longest_pause = 300.0;  // s

}  // namespace

std::string lasting(double seconds) {
  char text[64];
  constexpr double most = 1e15;  // s: thirty million years, and well within a whole number
  const long whole = std::lround(std::clamp(seconds, 0.0, most));
  if (whole < 60) {
    std::snprintf(text, sizeof text, "%ld s", whole);
  } else if (whole < 3600) {
    std::snprintf(text, sizeof text, "%ld min", (whole + 30) / 60);
  } else if (whole < 48L * 3600) {
    std::snprintf(text, sizeof text, "%ld h %02ld min", whole / 3600, whole % 3600 / 60);
  } else if (whole < 1000L * 86400) {
    std::snprintf(text, sizeof text, "%.1f days", static_cast<double>(whole) / 86400.0);
  } else {
    std::snprintf(text, sizeof text, "%.0f years", static_cast<double>(whole) / (365.25 * 86400.0));
  }
  return text;
}

SweepProgress::SweepProgress(base::ShownUnits units)
    : units_(units),
      terminal_(isatty(STDERR_FILENO) == 1),
      began_(std::chrono::steady_clock::now()),
      last_(began_),
      pause_(terminal_ ? redraw : first_line) {}

SweepProgress::~SweepProgress() {
  if (shown_) std::fprintf(stderr, "\n");
}

void SweepProgress::tell(const sweep::Tally& now, long cases, long kept_before) {
  const auto instant = std::chrono::steady_clock::now();
  if (std::chrono::duration<double>(instant - last_).count() < pause_) return;
  last_ = instant;
  // Lines in a log come ever more rarely, so that a week's night fills no disk.
  if (!terminal_) pause_ = std::min(2.0 * pause_, longest_pause);
  const double seconds = std::chrono::duration<double>(instant - began_).count();
  const long done = kept_before + now.cases;
  const double share = cases > 0 ? static_cast<double>(done) / static_cast<double>(cases) : 1.0;
  const double rate = static_cast<double>(now.cases) / seconds;
  std::string text = std::to_string(done) + " of " + std::to_string(cases) + " runs";
  char part[96];
  if (now.cases > 0) {
    std::snprintf(part, sizeof part, rate < 10.0 ? ", %.2f a second" : ", %.0f a second", rate);
    text += std::string(part) + ", " + lasting(static_cast<double>(cases - done) / rate) + " left";
  }
  if (now.hottest > 0.0) text += ", hottest " + base::show(now.hottest, base::shown::temperature, units_);
  if (now.failures > 0) text += ", " + std::to_string(now.failures) + " failed";
  if (terminal_) {
    const int full = static_cast<int>(share * bar_width);
    const std::string bar = std::string(static_cast<std::size_t>(full), '=') +
                            std::string(static_cast<std::size_t>(bar_width - full), '.');
    std::fprintf(stderr, "\r\033[K|%s| %s", bar.c_str(), text.c_str());
    shown_ = true;
  } else {
    std::fprintf(stderr, "%s\n", text.c_str());
  }
  std::fflush(stderr);
}

}  // namespace dullcast::commands
