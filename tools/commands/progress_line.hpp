#pragma once

#include <chrono>
#include <string>

namespace dullcast::commands {

/// One line on a terminal that says how far a long piece of work is. Appears only when standard error is a
/// terminal and the work has lasted a second; leaves nothing behind. Call from one thread at a time.
class ProgressLine {
 public:
  explicit ProgressLine(std::string what);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  void tell(double done, double all);

 private:
  std::string what_;
  bool terminal_;
  bool shown_ = false;
  std::chrono::steady_clock::time_point began_, last_;
};

}  // namespace dullcast::commands
