#include "engine/shop/work_calendar.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <stdexcept>
#include <utility>

namespace dullcast::shop {

WorkCalendar::WorkCalendar(std::vector<OpenSpan> spans) : always_(false), spans_(std::move(spans)) {
  double sum = 0.0;
  const OpenSpan* before = nullptr;
  for (const OpenSpan& span : spans_) {
    if (!std::isfinite(span.begin) || !std::isfinite(span.end) || !(span.end > span.begin) ||
        (before != nullptr && !(span.begin >= before->end)))
      throw std::invalid_argument("spans of work must be finite, longer than nothing, in order and apart");
    before_.push_back(sum);
    sum += span.end - span.begin;
    before = &span;
  }
}

bool WorkCalendar::open_at(Instant t) const {
  if (always_) return !std::isnan(t);
  const auto after = std::upper_bound(spans_.begin(), spans_.end(), t,
                                      [](Instant at, const OpenSpan& span) { return at < span.begin; });
  return after != spans_.begin() && t < std::prev(after)->end;
}

double WorkCalendar::work_until(Instant t) const {
  const auto after = std::upper_bound(spans_.begin(), spans_.end(), t,
                                      [](Instant at, const OpenSpan& span) { return at < span.begin; });
  if (after == spans_.begin()) return 0.0;
  const auto k = static_cast<std::size_t>(std::distance(spans_.begin(), after)) - 1;
  return before_[k] + std::min(t, spans_[k].end) - spans_[k].begin;
}

double WorkCalendar::work_between(Instant from, Instant to) const {
  if (std::isnan(from) || std::isnan(to)) return std::numeric_limits<double>::quiet_NaN();
  if (!(to > from)) return 0.0;
  return always_ ? to - from : work_until(to) - work_until(from);
}

Instant WorkCalendar::done(Instant from, double work) const {
  if (std::isnan(from) || std::isnan(work)) return std::numeric_limits<double>::quiet_NaN();
  if (!(work > 0.0)) return from;
  if (always_) return from + work;
  // The span in which it ends: the last that begins with less than all of it done.
  const double all = work_until(from) + work;
  const auto past = std::lower_bound(before_.begin(), before_.end(), all);
  if (past == before_.begin()) return std::numeric_limits<double>::infinity();
  const auto k = static_cast<std::size_t>(std::distance(before_.begin(), past)) - 1;
  const OpenSpan& span = spans_[k];
  const double into = all - before_[k];
  // Sums of spans are rounded: what is past the end of the last one by that much is done at its end.
  if (into > span.end - span.begin && past == before_.end()) {
    constexpr double rounding = 1e-6;
    return into - (span.end - span.begin) < rounding ? span.end : std::numeric_limits<double>::infinity();
  }
  // Where `from` is in this span, from it on: what is left of work is not lost in a sum over months.
  if (from >= span.begin) return std::min(from + work, span.end);
  return std::min(span.begin + into, span.end);
}

Instant WorkCalendar::next_open(Instant from) const {
  if (std::isnan(from) || always_ || open_at(from)) return from;
  const auto after = std::upper_bound(spans_.begin(), spans_.end(), from,
                                      [](Instant at, const OpenSpan& span) { return at < span.begin; });
  return after == spans_.end() ? std::numeric_limits<double>::infinity() : after->begin;
}

}  // namespace dullcast::shop
