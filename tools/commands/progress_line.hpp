#pragma once

#include <chrono>
#include <string>

namespace dullcast::commands {

/// How far a long piece of work is, on standard error: on a terminal one line, redrawn, which appears when
/// the work has lasted a second and leaves nothing behind; elsewhere (a log file, a batch queue) a plain line
/// once it has lasted two seconds, then ever more rarely. Call from one thread at a time.
class ProgressLine {
 public:
  explicit ProgressLine(std::string what);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  void tell(double done, double all);
  /// A sentence that stays.
  void say(const std::string& sentence);

 private:
  std::string what_;
  bool terminal_;
  bool shown_ = false;
  std::chrono::steady_clock::time_point began_, last_;
  double pause_;  // s to the next line
};

}  // namespace dullcast::commands
