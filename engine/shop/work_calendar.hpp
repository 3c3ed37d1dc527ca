#pragma once

#include <vector>

namespace dullcast::shop {

/// Seconds since the plan's first day began.
using Instant = double;

/// A stretch of time in which work is done, from its begin up to its end.
struct OpenSpan {
  Instant begin = 0.0, end = 0.0;
};

/// When a bench or a rig works: spans of time, days and zones already worked out (see read_shop_plan).
/// Arithmetic only: what is begun in one shift goes on in the next where the first ended.
class WorkCalendar {
 public:
  /// Always at work.
  WorkCalendar() = default;
  /// At work in these spans and never afterwards. Throws std::invalid_argument unless they are finite, longer
  /// than nothing, in order and apart (touching is apart).
  explicit WorkCalendar(std::vector<OpenSpan> spans);

  bool always() const { return always_; }
  const std::vector<OpenSpan>& spans() const { return spans_; }
  bool open_at(Instant t) const;
  /// s of work between two instants, from <= to; 0 otherwise.
  double work_between(Instant from, Instant to) const;
  /// When `work` s of work (0 or more) are done that may be begun at `from`: the first such instant. No work
  /// is done at `from` itself, shift or none. Infinity where the calendar ends first; NaN for NaN.
  Instant done(Instant from, double work) const;
  /// The first instant from `from` on at which work can be done; infinity where there is none.
  Instant next_open(Instant from) const;

 private:
  bool always_ = true;
  std::vector<OpenSpan> spans_;
  std::vector<double> before_;  // s of work before each span
  /// s of work up to t.
  double work_until(Instant t) const;
};

}  // namespace dullcast::shop
