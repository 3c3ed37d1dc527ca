#include "models/geometry/engagement.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/wide.hpp"

namespace dullcast::geometry {
namespace {

/// Where a cutter just meets another's trace the difference of depths leaves a few last bits, not a cut.
constexpr double rounding_share = 1e-10;
constexpr double nowhere = -1e29;  // m, above every outline and below what fills blocks up

/// The lowest of the outlines so far at the inner and the outer end of each cell, and whose it is.
struct Lowest {
  double *inner, *outer, *of_inner, *of_outer;
  double* slope;  // of its inner end by d: the cutter's turn back
};

DULLCAST_WIDE
void begin_above(const Lowest& lowest, int cells) {
  double *inner = lowest.inner, *outer = lowest.outer, *of_inner = lowest.of_inner,
         *of_outer = lowest.of_outer, *slope = lowest.slope;
  DULLCAST_TURNS_APART
  for (int k = 0; k < cells; ++k) {
    inner[k] = outer[k] = nowhere;
    of_inner[k] = of_outer[k] = -1.0;
    slope[k] = 0.0;
  }
}

DULLCAST_WIDE
void lower(const double* depth_inner, const double* depth_outer, double back, double phase, double cutter,
           const Lowest& lowest, int strips) {
  double *inner = lowest.inner, *outer = lowest.outer, *of_inner = lowest.of_inner,
         *of_outer = lowest.of_outer, *slope = lowest.slope;
  DULLCAST_TURNS_APART
  for (int k = 0; k < strips; ++k) {
    const double at_inner = depth_inner[k] - back, at_outer = depth_outer[k] - back;
    of_inner[k] = at_inner > inner[k] ? cutter : of_inner[k];
    slope[k] = at_inner > inner[k] ? -phase : slope[k];
    inner[k] = at_inner > inner[k] ? at_inner : inner[k];
    of_outer[k] = at_outer > outer[k] ? cutter : of_outer[k];
    outer[k] = at_outer > outer[k] ? at_outer : outer[k];
  }
}

/// The bottom that the last turn has left, and in which cells its lowest cutter is not the same at both ends.
DULLCAST_WIDE
void leave_bottom(const Lowest& lowest, double d, double* divided, int cells) {
  double *inner = lowest.inner, *outer = lowest.outer, *slope = lowest.slope;
  const double *of_inner = lowest.of_inner, *of_outer = lowest.of_outer;
  DULLCAST_TURNS_APART
  for (int k = 0; k < cells; ++k) {
    inner[k] -= d;
    outer[k] -= d;
    slope[k] -= 1.0;
    divided[k] = of_inner[k] != of_outer[k] ? 1.0 : 0.0;
  }
}

/// What of strips is cut, and how that grows with d.
struct StripCuts {
  double *inner, *outer, *slope;
};

/// One cutter passes over the bottom. `divided` of a cell is no longer 0 where it cuts at one end only.
DULLCAST_WIDE
void pass(const double* depth_inner, const double* depth_outer, double back, double phase, double rounding,
          const Lowest& bottom, double* divided, const StripCuts& cut, int strips) {
  double *bottom_inner = bottom.inner, *bottom_outer = bottom.outer, *bottom_slope = bottom.slope;
  double *cut_inner = cut.inner, *cut_outer = cut.outer, *cut_slope = cut.slope;
  DULLCAST_TURNS_APART
  for (int k = 0; k < strips; ++k) {
    // Conditions are turned into numbers at once: the compiler would unravel them into many.
    const double at_inner = depth_inner[k] - back, at_outer = depth_outer[k] - back;
    const double inner = at_least(at_inner - bottom_inner[k], 0.0),
                 outer = at_least(at_outer - bottom_outer[k], 0.0);
    bottom_inner[k] = at_least(bottom_inner[k], at_inner);
    bottom_outer[k] = at_least(bottom_outer[k], at_outer);
    const double by_inner = inner > 0.0 ? 1.0 : 0.0, by_outer = outer > 0.0 ? 1.0 : 0.0;
    divided[k] += std::abs(by_inner - by_outer);
    const double cuts = inner + outer > rounding ? 1.0 : 0.0;
    cut_inner[k] = cuts * inner;
    cut_outer[k] = cuts * outer;
    cut_slope[k] = cuts * (-phase - bottom_slope[k]);
    bottom_slope[k] = inner > 0.0 ? -phase : bottom_slope[k];
  }
}

/// Which whole blocks, of so many, hold all that is cut: from `first` until before `last`.
DULLCAST_WIDE
void find_cutting(const double* cut_inner, const double* cut_outer, int strips, int& first, int& last) {
  const auto cuts = [&](int block) {
    double parts[wide_block];
    for (int k = 0; k < wide_block; ++k) parts[k] = cut_inner[block + k] + cut_outer[block + k];
    return block_sum(parts) > 0.0;
  };
  first = 0, last = strips;
  while (first < last && !cuts(first)) first += wide_block;
  while (first < last && !cuts(last - wide_block)) last -= wide_block;
}

/// Depths that run straight over a cell: where they are now and how far they rise over all of it.
struct Lines {
  std::array<double, most_overlapping_cutters> start, now, rise;
  std::array<double, most_overlapping_cutters> phase;  // 1, of whose they are
};

/// Whether a line lies lower than another from here on, `by` being how much lower it lies here; `close` apart
/// they meet here.
inline bool lies_lower(double by, double rise, double other_rise, double close) {
  return by > close || (by >= -close && rise > other_rise);
}

/// Leaves out lines that lie as high as the bottom, or higher, all along the cell, since another lies lower
/// by d at both ends: they never cut, nor is the bottom theirs. How many are left.
inline int leave_out_hidden(Lines& lines, double d, std::array<int, most_overlapping_cutters>& strip_of,
                            std::array<int, most_overlapping_cutters>& cutter_of, int count) {
  if (count < 3) return count;
  const auto n = static_cast<std::size_t>(count);
  std::size_t at_start = 0, at_end = 0;
  const auto end = [&](std::size_t k) { return lines.start[k] + lines.rise[k]; };
  for (std::size_t k = 1; k < n; ++k) {
    if (lines.start[k] > lines.start[at_start]) at_start = k;
    if (end(k) > end(at_end)) at_end = k;
  }
  const double start_a = lines.start[at_start] - d, end_a = end(at_start) - d,
               start_b = lines.start[at_end] - d, end_b = end(at_end) - d;
  std::size_t left = 0;
  for (std::size_t k = 0; k < n; ++k) {
    const double start = lines.start[k], ends = end(k);
    if ((start < start_a && ends < end_a) || (start < start_b && ends < end_b)) continue;
    lines.start[left] = start;
    lines.rise[left] = lines.rise[k];
    lines.phase[left] = lines.phase[k];
    strip_of[left] = strip_of[k];
    cutter_of[left] = cutter_of[k];
    ++left;
  }
  return static_cast<int>(left);
}

/// Brings `next`, a share of the cell, back to where a line that lies `by` higher now meets one below.
inline void meet(double by, double rise, double lower_rise, double from, double& next) {
  constexpr double least_way = 1e-15;
  const double closing = rise - lower_rise;
  if (!(closing > 0.0) || !(by < (next - from) * closing)) return;
  next = from + std::max(least_way, by / closing);
}

}  // namespace

void StripParts::reserve(std::size_t parts) {
  for (auto* one : {&cutter, &strip}) one->reserve(parts);
  for (auto* one : {&inner, &outer, &cut_inner, &cut_outer, &cut_slope}) one->reserve(parts);
}

void StripParts::grow(int parts) {
  const auto room = static_cast<std::size_t>(filled_up(parts));
  for (auto* one : {&cutter, &strip}) one->resize(room);
  for (auto* one : {&inner, &outer, &cut_inner, &cut_outer, &cut_slope}) one->resize(room);
}

void StripParts::fill_up() {
  const int cut = count;
  make_room(cut);
  while (count < filled_up(cut)) add(0, 0, {});
  count = cut;
}

/// Room for any wear, so that nothing is allocated later.
void Engagement::make_room(const WornProfile& profile) {
  const std::size_t cells = profile.most_cells() + wide_block;
  if (divided_.capacity() >= cells && cut_inner_.capacity() >= profile.most_strips()) return;
  for (auto* one : {&top_inner_, &top_outer_, &top_slope_, &lowest_inner_, &lowest_outer_, &divided_})
    one->reserve(cells);
  for (auto* one : {&cut_inner_, &cut_outer_, &cut_slope_}) one->reserve(profile.most_strips());
  parts_.reserve(2 * cells);
}

bool Engagement::find(const WornProfile& profile, double d) {
  if (profile_ == &profile && changes_ == profile.changes() && d_ == d) return false;
  profile_ = nullptr;  // until all is
  find_anew(profile, d);
  profile_ = &profile;
  changes_ = profile.changes();
  d_ = d;
  return true;
}

void Engagement::find_anew(const WornProfile& profile, double d) {
  const OutlineStrips& strips = profile.strips();
  const std::size_t cells = profile.cells().size(), room = cells + wide_block;
  make_room(profile);
  for (auto* one : {&cut_inner_, &cut_outer_, &cut_slope_}) one->resize(strips.cosine.size());
  for (auto* one : {&top_inner_, &top_outer_, &top_slope_, &lowest_inner_, &lowest_outer_, &divided_})
    one->resize(room);
  const Lowest bottom{top_inner_.data(), top_outer_.data(), lowest_inner_.data(), lowest_outer_.data(),
                      top_slope_.data()};
  const auto from = [&](std::size_t cell) {
    return Lowest{bottom.inner + cell, bottom.outer + cell, bottom.of_inner + cell, bottom.of_outer + cell,
                  bottom.slope + cell};
  };
  begin_above(bottom, static_cast<int>(room));
  parts_.clear();
  for (const int cutter : profile.passing_order()) {
    const CutterRun& run = profile.runs()[static_cast<std::size_t>(cutter)];
    const auto strip = static_cast<std::size_t>(run.first_strip),
               cell = static_cast<std::size_t>(run.first_cell);
    if (run.cells == 0) continue;
    const double phase = profile.pass_phase(cutter);
    lower(strips.depth_inner.data() + strip, strips.depth_outer.data() + strip, d * phase, phase, cutter,
          from(cell), filled_up(run.cells));
  }
  leave_bottom(bottom, d, divided_.data(), static_cast<int>(room));
  for (const int cutter : profile.passing_order()) {
    const CutterRun& run = profile.runs()[static_cast<std::size_t>(cutter)];
    const auto strip = static_cast<std::size_t>(run.first_strip),
               cell = static_cast<std::size_t>(run.first_cell);
    if (run.cells == 0) continue;
    const double phase = profile.pass_phase(cutter);
    pass(strips.depth_inner.data() + strip, strips.depth_outer.data() + strip, d * phase, phase,
         rounding_share * d, from(cell), divided_.data() + cell,
         {cut_inner_.data() + strip, cut_outer_.data() + strip, cut_slope_.data() + strip},
         filled_up(run.cells));
  }
  for (std::size_t cell = 0; cell < cells; ++cell)
    if (divided_[cell] != 0.0) divide(profile, cell, d);
  parts_.fill_up();
  cutting_.resize(profile.runs().size());
  for (std::size_t i = 0; i < cutting_.size(); ++i) {
    const CutterRun& run = profile.runs()[i];
    const auto at = static_cast<std::size_t>(run.first_strip);
    int first = 0, last = 0;
    find_cutting(cut_inner_.data() + at, cut_outer_.data() + at, filled_up(run.cells), first, last);
    cutting_[i] = {run.first_strip + first, run.first_strip + last};
  }
}

/// Goes over a cell from its inner end, from one hand-over to the next.
void Engagement::divide(const WornProfile& profile, std::size_t number, double d) {
  const ProfileCell& cell = profile.cells()[number];
  const OutlineStrips& strips = profile.strips();
  Lines lines;
  lines.start[0] = lines.rise[0] = lines.phase[0] = 0.0;
  int n = cell.count;
  std::array<int, most_overlapping_cutters> strip_of, cutter_of;
  for (int i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    strip_of[k] = profile.strip_at(cell, i);
    cutter_of[k] = profile.cutter_at(cell, i);
    const auto strip = static_cast<std::size_t>(strip_of[k]);
    lines.phase[k] = profile.pass_phase(cutter_of[k]);
    const double back = d * lines.phase[k];
    lines.start[k] = strips.depth_inner[strip] - back;
    lines.rise[k] = strips.depth_outer[strip] - back - lines.start[k];
    cut_inner_[strip] = cut_outer_[strip] = cut_slope_[strip] = 0.0;
  }
  // Depths closer than their last bits meet; which of them lies lower from there on their rise says.
  const double close = 1e-13 * d + 2.3e-16 * std::abs(lines.start[0]);
  n = leave_out_hidden(lines, d, strip_of, cutter_of, n);
  const double width = cell.outer - cell.inner, rounding = rounding_share * d;
  struct Cut {
    std::size_t k;
    double depth, rise, slope;
  };
  std::array<Cut, most_overlapping_cutters> cuts;
  double at = 0.0;
  // A cell has no more hand-overs than pairs of lines that cross, each at three levels.
  for (int left = 2 * n * n + 8; at < 1.0; --left) {
    std::size_t top = 0, count = 0;
    for (std::size_t k = 0; k < static_cast<std::size_t>(n); ++k) {
      lines.now[k] = lines.start[k] + at * lines.rise[k];
      if (lies_lower(lines.now[k] - lines.now[top], lines.rise[k], lines.rise[top], close)) top = k;
    }
    double next = 1.0, bottom = lines.now[top] - d, bottom_rise = lines.rise[top],
           bottom_phase = lines.phase[top] + 1.0;
    for (std::size_t k = 0; k < static_cast<std::size_t>(n); ++k) {
      const double now = lines.now[k], rise = lines.rise[k];
      meet(lines.now[top] - now, rise, lines.rise[top], at, next);
      if (lies_lower(now - bottom, rise, bottom_rise, close)) {
        meet(now - bottom, bottom_rise, rise, at, next);
        cuts[count++] = {k, now - bottom, rise - bottom_rise, bottom_phase - lines.phase[k]};
        bottom = now;
        bottom_rise = rise;
        bottom_phase = lines.phase[k];
      } else {
        meet(bottom - now, rise, bottom_rise, at, next);
      }
    }
    if (left == 0) next = 1.0;
    parts_.make_room(parts_.count + n);
    const double inner = cell.inner + at * width, outer = next < 1.0 ? cell.inner + next * width : cell.outer;
    for (std::size_t c = 0; c < count; ++c) {
      const Cut& cut = cuts[c];
      const double start = std::max(0.0, cut.depth), end = std::max(0.0, cut.depth + cut.rise * (next - at));
      if (start + end > rounding)
        parts_.add(cutter_of[cut.k], strip_of[cut.k], {inner, outer, start, end, cut.slope});
    }
    at = next;
  }
}

}  // namespace dullcast::geometry
