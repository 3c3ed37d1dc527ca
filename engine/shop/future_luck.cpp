#include "engine/shop/future_luck.hpp"

#include <algorithm>

#include "engine/base/text_number.hpp"
#include "engine/statistics/counter_random.hpp"
#include "engine/statistics/normal_law.hpp"

namespace dullcast::shop {

std::uint64_t FutureLuck::stream(Purpose purpose, std::uint64_t a) const {
  return (static_cast<std::uint64_t>(purpose) << 56) + (a << 32) + static_cast<std::uint64_t>(future_);
}

double FutureLuck::uniform(Purpose purpose, std::uint64_t a, std::uint64_t b, std::uint64_t c) const {
  return statistics::uniform_at(static_cast<std::uint64_t>(seed_), stream(purpose, a), (b << 32) + c);
}

double FutureLuck::normal(Purpose purpose, std::uint64_t a, std::uint64_t counter) const {
  return statistics::standard_normal_at(static_cast<std::uint64_t>(seed_), stream(purpose, a), counter) /
         statistics::ninety_percent_point;
}

double FutureLuck::duration(const Duration& duration, Purpose purpose, std::uint64_t a, std::uint64_t b,
                            std::uint64_t c) const {
  return std::max(0.0, statistics::quantile(duration, uniform(purpose, a, b, c)));
}

double FutureLuck::task(const Duration& task, std::size_t station, std::size_t bit, int visit) const {
  return duration(task, Purpose::task, station, bit, static_cast<std::uint64_t>(visit));
}

double FutureLuck::piece(const Duration& piece, std::size_t station, std::size_t bit, int visit) const {
  return duration(piece, Purpose::piece, station, bit, static_cast<std::uint64_t>(visit));
}

double FutureLuck::cutters(const Duration& lead_time, std::size_t kind, int order) const {
  return duration(lead_time, Purpose::cutters, kind, 0, static_cast<std::uint64_t>(order));
}

double FutureLuck::new_bit(const Duration& lead_time, std::size_t bit, int generation) const {
  return duration(lead_time, Purpose::new_bit, bit, 0, static_cast<std::uint64_t>(generation));
}

double FutureLuck::number(std::string_view name) const {
  return normal(Purpose::number, 0, base::text_number(name));
}

double FutureLuck::bit_to_bit(std::size_t bit, int generation) const {
  return normal(Purpose::bit_to_bit, static_cast<std::uint64_t>(generation), bit);
}

std::int64_t FutureLuck::bit_seed(std::size_t bit, int generation, int reworks) const {
  // The first 53 bits of a uniform number; seeds need no more to be told apart.
  const double u = uniform(Purpose::bit_seed, bit, static_cast<std::uint64_t>(generation),
                           static_cast<std::uint64_t>(reworks));
  return static_cast<std::int64_t>(u * 0x1p53);
}

}  // namespace dullcast::shop
