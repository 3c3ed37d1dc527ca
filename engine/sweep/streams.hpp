#pragma once

#include <cstdint>

namespace dullcast::sweep {

/// What a sweep draws random numbers for. Every purpose has streams of its own, so that adding one changes
/// nothing of the others. The values are part of what a seed means: never change one.
enum class Purpose : std::uint64_t {
  design_order = 1,
  design_place = 2,
  design_shift = 3,
  values = 4,
  layer_strength = 5,
  layer_abrasivity = 6,
  lens_tops = 7,
  lens_thickness = 8,
  run_seed = 9
};

/// The stream of a purpose's member, for uniform_at and its like: 2^56 members each.
inline std::uint64_t stream_of(Purpose purpose, std::uint64_t member) {
  return (static_cast<std::uint64_t>(purpose) << 56) ^ member;
}

}  // namespace dullcast::sweep
