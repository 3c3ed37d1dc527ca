#include "models/cutting/strip_sums.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/wide.hpp"

namespace dullcast::cutting {
namespace {

using geometry::OutlineStrips;

/// Roots of the mobilisation at rest and where it is full.
const double at_rest = std::sqrt(elastic_share), at_full = std::sqrt(1.0 + elastic_share);

/// What strips, or parts of them, are like and what is cut of them; one entry each.
struct Cuts {
  const double *inner, *outer, *cut_inner, *cut_outer;  // m
  const double* cut_slope;                              // 1
  const double *cosine, *secant, *across, *diamond, *carbide, *flat_weight, *per_full;
};

Cuts cuts_at(const OutlineStrips& strips, std::size_t at, const double* inner, const double* outer,
             const double* cut_inner, const double* cut_outer, const double* cut_slope) {
  return {inner,
          outer,
          cut_inner,
          cut_outer,
          cut_slope,
          strips.cosine.data() + at,
          strips.secant.data() + at,
          strips.across.data() + at,
          strips.diamond_length.data() + at,
          strips.carbide_length.data() + at,
          strips.flat_weight.data() + at,
          strips.per_full.data() + at};
}

/// The mobilisation min(1, (sqrt(x + x_0) - sqrt(x_0))/(sqrt(1 + x_0) - sqrt(x_0))) over a stretch on which
/// x, the cut over what mobilises fully, runs straight between two values >= 0: its mean, and its moment
/// about the end of the lesser cut, over the stretch, and its mean's slope by x. Closed forms in the roots at
/// the ends of the part that is not fully mobilised, of positive terms only.
struct Mobilised {
  double mean = 0.0, moment = 0.0, slope = 0.0;
};

[[gnu::always_inline]] inline Mobilised mobilised_over(double least, double most, double rest,
                                                       double per_rise) {
  constexpr double tiny = 1e-300;
  const double from = std::sqrt((least < 1.0 ? least : 1.0) + elastic_share);
  const double to = std::sqrt((most < 1.0 ? most : 1.0) + elastic_share);
  const double short_of = 1.0 - least > 0.0 ? 1.0 - least : 0.0,
               way = most - least > tiny ? most - least : tiny;
  // One division for both, which is what takes longest here.
  const double sum = from + to, per_both = 1.0 / (sum * way), per_sum = per_both * way;
  const double mean_root = 2.0 / 3.0 * (from * from + from * to + to * to) * per_sum;
  const double root_moment = 2.0 / 15.0 *
                             (to * to * (3.0 * to + 6.0 * from) + from * from * (4.0 * to + 2.0 * from)) *
                             per_sum * per_sum;
  const double below = most > 1.0 ? short_of * (per_both * sum) : 1.0;  // share of the stretch
  return {below * ((mean_root - rest) * per_rise) + (1.0 - below),
          below * below * ((root_moment - 0.5 * rest) * per_rise) + 0.5 * (1.0 - below * below),
          below * per_sum * per_rise};
}

/// So many values a strip gives: the slopes of the first follow the sums.
constexpr std::size_t values_for(std::size_t asked) {
  return asked + strip_slopes;
}

/// What one strip adds to the sums, and to their slopes.
template <std::size_t asked>
[[gnu::always_inline]] inline void values_of(const Cuts& at, int k, double carbide_share, double per_slope,
                                             double rest, double per_rise,
                                             double (&values)[values_for(asked)]) {
  const double a = at.cut_inner[k], b = at.cut_outer[k];
  const double inner = at.inner[k], outer = at.outer[k];
  const double width = outer - inner, cosine = at.cosine[k];
  const double scale = at.per_full[k] * per_slope;
  const bool rises = a < b;
  const double least = rises ? a : b, most = rises ? b : a;
  const Mobilised found = mobilised_over(least * scale, most * scale, rest, per_rise);
  const bool cuts = a + b > 0.0;
  const double mobilised = cuts ? found.mean : 0.0;
  const double bearing = (at.diamond[k] + carbide_share * at.carbide[k]) * mobilised;
  values[0] = width * 0.5 * (a + b);
  values[1] = width * cosine * (a * a + a * b + b * b) / 3.0;
  values[2] = width * bearing;
  if constexpr (asked > strip_sums_of_weight) {
    const double edge = width * at.secant[k], borne = bearing * edge, engaged = mobilised * edge;
    values[3] = width / 6.0 * (inner * (2.0 * a + b) + outer * (a + 2.0 * b));
    values[4] = borne;
    const double moment = (rises ? inner : outer) * found.mean + (rises ? width : -width) * found.moment;
    values[5] = cuts ? (at.diamond[k] + carbide_share * at.carbide[k]) * edge * moment : 0.0;
    values[6] = borne * at.across[k];
    values[7] = engaged;
    values[8] = cuts ? edge : 0.0;
    values[9] = at.flat_weight[k] * engaged;
    values[10] = at.diamond[k] * engaged;
  }
  const double slope = at.cut_slope[k];
  values[asked] = width * slope;
  values[asked + 1] = width * cosine * (a + b) * slope;
  values[asked + 2] =
      cuts ? width * (at.diamond[k] + carbide_share * at.carbide[k]) * (found.slope * scale * slope) : 0.0;
}

/// Adds up strips of one cutter, so many whole blocks.
template <std::size_t asked>
[[gnu::always_inline]] inline void add_up(const Cuts& at, int strips, double carbide_share, double per_slope,
                                          double* sums) {
  const double rest = at_rest, per_rise = 1.0 / (at_full - at_rest);
  constexpr std::size_t given = values_for(asked);
  double parts[given][wide_block] = {};
  for (int block = 0; block < strips; block += wide_block) {
    for (int l = 0; l < wide_block; ++l) {
      double values[given];
      values_of<asked>(at, block + l, carbide_share, per_slope, rest, per_rise, values);
      for (std::size_t s = 0; s < given; ++s) parts[s][l] += values[s];
    }
  }
  for (std::size_t s = 0; s < given; ++s) sums[s] = block_sum(parts[s]);
}

/// What each of so many whole blocks of parts adds, sum by sum.
template <std::size_t asked>
[[gnu::always_inline]] inline void work_out(const Cuts& at, int parts, const double* carbide_share,
                                            double per_slope, double* out) {
  const double rest = at_rest, per_rise = 1.0 / (at_full - at_rest);
  DULLCAST_TURNS_APART
  for (int k = 0; k < parts; ++k) {
    constexpr std::size_t given = values_for(asked);
    double values[given];
    values_of<asked>(at, k, carbide_share[k], per_slope, rest, per_rise, values);
    for (std::size_t s = 0; s < given; ++s)
      out[s * static_cast<std::size_t>(parts) + static_cast<std::size_t>(k)] = values[s];
  }
}

/// Adds to each cutter's sums and slopes what its parts give, `values` sum by sum.
template <std::size_t asked>
void add_each(const geometry::StripParts& parts, const double* values, std::size_t room, double* sums,
              double* slopes) {
  for (std::size_t k = 0; k < static_cast<std::size_t>(parts.count); ++k) {
    const auto cutter = static_cast<std::size_t>(parts.cutter[k]);
    double *of_cutter = sums + cutter * strip_sums, *by_depth = slopes + cutter * strip_slopes;
    const double* value = values + k;
    for (std::size_t s = 0; s < asked; ++s, value += room) of_cutter[s] += *value;
    for (std::size_t s = 0; s < strip_slopes; ++s, value += room) by_depth[s] += *value;
  }
}

DULLCAST_WIDE void add_up_weight(const Cuts& at, int strips, double carbide_share, double per_slope,
                                 double* sums) {
  add_up<strip_sums_of_weight>(at, strips, carbide_share, per_slope, sums);
}
DULLCAST_WIDE void add_up_all(const Cuts& at, int strips, double carbide_share, double per_slope,
                              double* sums) {
  add_up<strip_sums>(at, strips, carbide_share, per_slope, sums);
}
DULLCAST_WIDE void work_out_weight(const Cuts& at, int parts, const double* carbide_share, double per_slope,
                                   double* out) {
  work_out<strip_sums_of_weight>(at, parts, carbide_share, per_slope, out);
}
DULLCAST_WIDE void work_out_all(const Cuts& at, int parts, const double* carbide_share, double per_slope,
                                double* out) {
  work_out<strip_sums>(at, parts, carbide_share, per_slope, out);
}

}  // namespace

void StripSums::find(const geometry::WornProfile& profile, double mobilisation_slope,
                     const double* carbide_share, double d, bool of_weight_only) {
  constexpr double least_slope = 1e-30;
  const double per_slope = 1.0 / std::max(mobilisation_slope, least_slope);
  const std::size_t n = profile.runs().size();
  const std::size_t asked = of_weight_only ? strip_sums_of_weight : strip_sums;
  if (!engagement_.find(profile, d) && known_ >= asked && mobilisation_slope_ == mobilisation_slope &&
      std::equal(carbide_share_.begin(), carbide_share_.end(), carbide_share))
    return;
  known_ = 0;  // until all are
  sums_.assign(n * strip_sums, 0.0);
  slopes_.assign(n * strip_slopes, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    const geometry::CutterRun& run = profile.runs()[i];
    const geometry::Engagement::Range& range = engagement_.cutting()[i];
    if (range.first == range.last) continue;
    const auto strip = static_cast<std::size_t>(range.first);
    const auto cell = static_cast<std::size_t>(run.first_cell + range.first - run.first_strip);
    const Cuts cuts = cuts_at(profile.strips(), strip, &profile.inner()[cell], &profile.outer()[cell],
                              &engagement_.cut_inner()[strip], &engagement_.cut_outer()[strip],
                              &engagement_.cut_slope()[strip]);
    double given[values_for(strip_sums)];
    (of_weight_only ? add_up_weight : add_up_all)(cuts, range.last - range.first, carbide_share[i], per_slope,
                                                  given);
    std::copy_n(given, asked, sums_.data() + i * strip_sums);
    std::copy_n(given + asked, strip_slopes, slopes_.data() + i * strip_slopes);
  }
  add_parts(profile, per_slope, carbide_share, asked);
  mobilisation_slope_ = mobilisation_slope;
  carbide_share_.assign(carbide_share, carbide_share + n);
  known_ = asked;
}

void StripSums::add_parts(const geometry::WornProfile& profile, double per_slope, const double* carbide_share,
                          std::size_t asked) {
  const geometry::StripParts& parts = engagement_.parts();
  const auto room = static_cast<std::size_t>(filled_up(parts.count));
  if (room == 0) return;
  const OutlineStrips& from = profile.strips();
  if (part_carbide_.capacity() < parts.strip.capacity()) {  // once, as a rule
    part_strips_.reserve(parts.strip.capacity());
    part_carbide_.reserve(parts.strip.capacity());
    part_values_.reserve(parts.strip.capacity() * values_for(strip_sums));
  }
  if (part_carbide_.size() < room) {
    part_strips_.resize(room);
    part_carbide_.resize(room);
    part_values_.resize(room * values_for(strip_sums));
  }
  const bool all = asked == strip_sums;
  for (std::size_t k = 0; k < room; ++k) {
    const auto strip = static_cast<std::size_t>(parts.strip[k]);
    part_strips_.cosine[k] = from.cosine[strip];
    part_strips_.diamond_length[k] = from.diamond_length[strip];
    part_strips_.carbide_length[k] = from.carbide_length[strip];
    part_strips_.per_full[k] = from.per_full[strip];
    part_carbide_[k] = carbide_share[static_cast<std::size_t>(parts.cutter[k])];
  }
  for (std::size_t k = 0; all && k < room; ++k) {
    const auto strip = static_cast<std::size_t>(parts.strip[k]);
    part_strips_.secant[k] = from.secant[strip];
    part_strips_.across[k] = from.across[strip];
    part_strips_.flat_weight[k] = from.flat_weight[strip];
  }
  const Cuts cuts = cuts_at(part_strips_, 0, parts.inner.data(), parts.outer.data(), parts.cut_inner.data(),
                            parts.cut_outer.data(), parts.cut_slope.data());
  (all ? work_out_all : work_out_weight)(cuts, static_cast<int>(room), part_carbide_.data(), per_slope,
                                         part_values_.data());
  if (all) {
    add_each<strip_sums>(parts, part_values_.data(), room, sums_.data(), slopes_.data());
  } else {
    add_each<strip_sums_of_weight>(parts, part_values_.data(), room, sums_.data(), slopes_.data());
  }
}

}  // namespace dullcast::cutting
