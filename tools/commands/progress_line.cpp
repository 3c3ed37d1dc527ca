#include "tools/commands/progress_line.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

namespace dullcast::commands {

using namespace std::chrono_literals;

ProgressLine::ProgressLine(std::string what)
    : what_(std::move(what)),
      terminal_(isatty(STDERR_FILENO) == 1),
      began_(std::chrono::steady_clock::now()),
      last_(began_) {}

ProgressLine::~ProgressLine() {
  if (shown_) std::fprintf(stderr, "\r\033[K");
}

void ProgressLine::tell(double done, double all) {
  const auto now = std::chrono::steady_clock::now();
  if (!terminal_ || now - began_ < 1s || now - last_ < 100ms || !(all > 0.0)) return;
  last_ = now;
  shown_ = true;
  const double share = std::clamp(done / all, 0.0, 1.0);
  const double seconds = std::chrono::duration<double>(now - began_).count();
  const double left = share > 0.0 ? seconds * (1.0 - share) / share : 0.0;
  std::fprintf(stderr, "\r\033[K%s: %d %%, about %.0f s to go", what_.c_str(),
               static_cast<int>(100.0 * share), std::ceil(left));
  std::fflush(stderr);
}

}  // namespace dullcast::commands
