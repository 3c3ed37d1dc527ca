#pragma once

#include <chrono>
#include <string>

#include "engine/base/display.hpp"
#include "engine/sweep/chunk_source.hpp"

namespace dullcast::commands {

/// How far a sweep is: on a terminal one line with a bar, redrawn; elsewhere (a log file, a batch queue) a
/// plain line now and then. On standard error. Call from one thread.
class SweepProgress {
 public:
  /// Temperatures are told in these units.
  explicit SweepProgress(base::ShownUnits units);
  ~SweepProgress();
  SweepProgress(const SweepProgress&) = delete;
  SweepProgress& operator=(const SweepProgress&) = delete;
  void tell(const sweep::Tally& now, long cases, long kept_before);

 private:
  base::ShownUnits units_;
  bool terminal_, shown_ = false;
  std::chrono::steady_clock::time_point began_, last_;
  double pause_;  // s to the next line
};

/// "2 h 05 min", "14 min", "38 s", "3.5 days", "12 years".
std::string lasting(double seconds);

}  // namespace dullcast::commands
