#include "tools/shelf_maker/bits_drilled.hpp"

#include <chrono>
#include <cmath>
#include <cstdio>

#include "engine/statistics/counter_random.hpp"

namespace dullcast::shelf_maker {
namespace {

/// One rock of a kind of ground: how much of it a hole has, m.
struct RockRange {
  const char* rock;
  double least, most;
};
using Ground = std::vector<RockRange>;

const std::vector<Ground>& kinds_of_ground() {
  static const std::vector<Ground> kinds{
      {{"clay", 4, 8}, {"shale", 30, 50}, {"sandstone", 20, 45}},
      {{"clay", 2, 4}, {"limestone", 30, 60}, {"dolomite", 10, 25}, {"cherty_limestone", 0.3, 0.8}},
      {{"clay", 2, 6}, {"sandstone", 50, 80}},
      {{"shale", 30, 50}, {"hard_sandstone", 1, 3}, {"sandstone", 5, 15}},
      {{"clay", 5, 10}, {"shale", 40, 70}, {"siltstone", 30, 60}},
      {{"limestone", 20, 40}, {"cherty_limestone", 0.6, 1.5}, {"shale", 20, 40}},
      {{"siltstone", 20, 40}, {"dolomite", 20, 35}, {"hard_sandstone", 0.4, 1.2}}};
  return kinds;
}

/// Uniform numbers of one bit, one after the other.
class Draws {
 public:
  Draws(unsigned long seed, std::size_t bit) : seed_(seed), bit_(bit) {}
  double between(double least, double most) {
    return least + (most - least) * statistics::uniform_at(seed_, bit_, counter_++);
  }
  int whole(int least, int most, int step = 1) {
    const int choices = (most - least) / step + 1;
    return least + step * static_cast<int>(std::floor(between(0.0, choices)));
  }

 private:
  unsigned long seed_;
  std::size_t bit_, counter_ = 0;
};

std::string day_text(std::chrono::sys_days day) {
  const std::chrono::year_month_day date(day);
  char text[24];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text;
}

}  // namespace

std::vector<BitDrilled> forty_bits(unsigned long seed) {
  constexpr std::size_t count = 40;
  std::chrono::sys_days day = std::chrono::year(2031) / 3 / 3;
  std::vector<BitDrilled> bits;
  for (std::size_t i = 0; i < count; ++i) {
    Draws draws(seed, i);
    BitDrilled bit;
    bit.name = "LM-" + std::to_string(101 + i);
    day += std::chrono::days(draws.whole(2, 9));
    bit.day = day_text(day);
    const bool wide = i % 3 == 2;
    bit.scenario = wide ? "wide_well.yaml" : "ordinary_well.yaml";
    const double lot = draws.between(0.0, 1.0);
    bit.lot = lot < 0.42 ? "spring" : lot < 0.82 ? "autumn" : "poor";
    bit.holes = draws.whole(3, 8);
    // Each kind of ground in turn, so that none is left out.
    for (const RockRange& rock : kinds_of_ground()[i % kinds_of_ground().size()])
      bit.ground.push_back(
          {rock.rock, static_cast<int>(std::lround(bit.holes * draws.between(rock.least, rock.most)))});
    bit.weight = wide ? draws.whole(6500, 8500, 250) : draws.whole(5500, 7250, 250);
    bit.speed = draws.whole(70, 95, 5);
    bit.flow = wide ? draws.whole(80, 100, 5) : draws.whole(55, 75, 5);
    bits.push_back(std::move(bit));
  }
  return bits;
}

}  // namespace dullcast::shelf_maker
