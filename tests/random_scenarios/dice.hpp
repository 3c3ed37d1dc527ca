#pragma once

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <random>
#include <string>
#include <vector>

namespace dullcast::random_scenarios {

/// Random choices that are the same on every machine: the standard's engine, without its distributions, which
/// are each library's own.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  /// From 0 up to and without 1.
  double share() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  double between(double least, double most) { return least + (most - least) * share(); }
  /// As many in each decade; both above 0.
  double over_decades(double least, double most) {
    return least * std::exp(share() * std::log(most / least));
  }
  int whole(int least, int most) {
    return least + static_cast<int>(share() * static_cast<double>(most - least + 1));
  }
  bool chance(double probability) { return share() < probability; }
  template <class Value>
  const Value& one_of(const std::vector<Value>& values) {
    return values[static_cast<std::size_t>(share() * static_cast<double>(values.size()))];
  }
  std::string word(const std::vector<std::string>& words) { return one_of(words); }

 private:
  std::mt19937_64 engine_;
};

/// A number of seven digits and its unit, as a scenario states it.
inline std::string written(double value, const char* unit) {
  char buffer[64];
  std::snprintf(buffer, sizeof buffer, "%.7g%s%s", value, *unit ? " " : "", unit);
  return buffer;
}

}  // namespace dullcast::random_scenarios
