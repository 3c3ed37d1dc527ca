#pragma once

#include <Eigen/Core>
#include <array>
#include <limits>

#include "models/thermal/heat_network.hpp"

namespace dullcast::simulation {

/// The state of one run as one vector, so that odeint can step it: named blocks, one after another.
using State = Eigen::VectorXd;

/// The blocks. Stiff ones come first: temperatures, and what fills and empties fast.
enum class Block : std::size_t {
  table_near,    // K, of the diamond table by the contact
  table_rest,    // K, of the rest of the table
  carbide_near,  // K, of the carbide behind the contact
  carbide_rest,  // K, of the rest of the carbide
  settled,       // K, flat's temperature that the load share of carbide follows, with a lag
  body,          // K
  fluid,         // K, at the bottom
  warm,          // K, of the rock's warm skin
  water,         // 1, at the bottom over its full amount
  solids,        // 1, fraction of the slots
  plug,          // 1, over the bit, multiples of the packed slots
  worn,          // m, in the face
  damage,        // 1, heat damage
  chip_hazard,   // 1
  depth,         // m, of the hole
  eroded,        // m, of blades and pockets
  blade_wear,    // m, rubbed off
  pad_wear,      // m, rubbed off
  spent,         // J since the hole began: at the bit,
  carried,       // J carried off,
  left_in_rock   // J left in rock
};

/// How a block is laid out and how finely it is stepped.
struct BlockRule {
  Block block;
  bool per_cutter;     // one entry per cutter, else one
  bool stiff;          // part of the thermal matrix
  double error_scale;  // error worth 1 per relative tolerance of 1
};

/// Temperatures 100 K, lengths of wear 1 mm, damage and hazard 1, depth 1 m, a tenth of the water and of the
/// solids. The settled flat temperatures serve only the load share of carbide, a weak function of them: 1,000
/// K. Energies follow from the rest and do not steer the step.
inline constexpr double steers_nothing = std::numeric_limits<double>::infinity();
inline constexpr std::array block_rules{BlockRule{Block::table_near, true, true, 100.0},
                                        BlockRule{Block::table_rest, true, true, 100.0},
                                        BlockRule{Block::carbide_near, true, true, 100.0},
                                        BlockRule{Block::carbide_rest, true, true, 100.0},
                                        BlockRule{Block::settled, true, true, 1000.0},
                                        BlockRule{Block::body, false, true, 100.0},
                                        BlockRule{Block::fluid, false, true, 100.0},
                                        BlockRule{Block::warm, false, true, 100.0},
                                        BlockRule{Block::water, false, true, 0.1},
                                        BlockRule{Block::solids, false, true, 0.1},
                                        BlockRule{Block::plug, false, true, 1.0},
                                        BlockRule{Block::worn, true, false, 1e-3},
                                        BlockRule{Block::damage, true, false, 1.0},
                                        BlockRule{Block::chip_hazard, true, false, 1.0},
                                        BlockRule{Block::depth, false, false, 1.0},
                                        BlockRule{Block::eroded, false, false, 1e-3},
                                        BlockRule{Block::blade_wear, false, false, 1e-3},
                                        BlockRule{Block::pad_wear, false, false, 1e-3},
                                        BlockRule{Block::spent, false, false, steers_nothing},
                                        BlockRule{Block::carried, false, false, steers_nothing},
                                        BlockRule{Block::left_in_rock, false, false, steers_nothing}};

namespace state_layout_detail {
/// Rules stand in the blocks' order, stiff ones first, the parts of a cutter in the order of CutterPart.
constexpr bool in_order() {
  for (std::size_t k = 0; k < block_rules.size(); ++k) {
    if (block_rules[k].block != static_cast<Block>(k)) return false;
    if (k > 0 && block_rules[k].stiff && !block_rules[k - 1].stiff) return false;
  }
  return block_rules[thermal::table_near].block == Block::table_near &&
         block_rules[thermal::table_rest].block == Block::table_rest &&
         block_rules[thermal::carbide_near].block == Block::carbide_near &&
         block_rules[thermal::carbide_rest].block == Block::carbide_rest;
}
static_assert(in_order());
}  // namespace state_layout_detail

/// Where each block stands for a number of cutters. Blocks are asked for by name.
class StateLayout {
 public:
  explicit StateLayout(Eigen::Index cutters_on_bit) : cutters(cutters_on_bit) {
    for (std::size_t k = 0; k < block_rules.size(); ++k)
      first_[k + 1] = first_[k] + (block_rules[k].per_cutter ? cutters : 1);
  }

  Eigen::Index cutters;

  Eigen::Index size() const { return first_.back(); }
  /// Where the blocks begin that are not stiff.
  Eigen::Index slow_from() const { return first(Block::worn); }
  Eigen::Index first(Block block) const { return first_[static_cast<std::size_t>(block)]; }
  Eigen::Index length(Block block) const {
    return first_[static_cast<std::size_t>(block) + 1] - first(block);
  }
  auto of(Block block, auto& x) const { return x.segment(first(block), length(block)).array(); }

  // Blocks of one entry: its place.
  Eigen::Index body() const { return first(Block::body); }
  Eigen::Index fluid() const { return first(Block::fluid); }
  Eigen::Index warm() const { return first(Block::warm); }
  Eigen::Index water() const { return first(Block::water); }
  Eigen::Index solids() const { return first(Block::solids); }
  Eigen::Index plug() const { return first(Block::plug); }
  Eigen::Index depth() const { return first(Block::depth); }
  Eigen::Index eroded() const { return first(Block::eroded); }
  Eigen::Index blade_wear() const { return first(Block::blade_wear); }
  Eigen::Index pad_wear() const { return first(Block::pad_wear); }
  Eigen::Index spent() const { return first(Block::spent); }
  Eigen::Index carried() const { return first(Block::carried); }
  Eigen::Index left_in_rock() const { return first(Block::left_in_rock); }

  // Blocks of one entry per cutter.
  auto table(auto& x) const { return of(Block::table_near, x); }
  auto carbide(auto& x) const { return of(Block::carbide_near, x); }
  auto pocket(auto& x) const { return of(Block::carbide_rest, x); }
  auto settled(auto& x) const { return of(Block::settled, x); }
  auto worn(auto& x) const { return of(Block::worn, x); }
  auto damage(auto& x) const { return of(Block::damage, x); }
  auto chip_hazard(auto& x) const { return of(Block::chip_hazard, x); }

  /// What is done to cutters and never heals: worn, damage and chip hazard, which stand one after another.
  /// Also of vectors that hold the entries from slow_from() on only.
  auto scars(auto& x) const {
    const Eigen::Index n = first(Block::depth) - slow_from();
    return x.segment(x.size() == size() ? slow_from() : 0, n);
  }

  /// What no rate ever takes back: scars, depth and the wear of the body, which stand one after another. Of
  /// whole states only.
  auto never_falling(auto& x) const { return x.segment(slow_from(), spent() - slow_from()); }

  /// All parts of all cutters: a row a cutter, a column a part (thermal::CutterPart).
  auto parts(const State& x) const {
    return Eigen::Map<const Eigen::Array<double, Eigen::Dynamic, thermal::cutter_parts>>(
        x.data() + first(Block::table_near), cutters, thermal::cutter_parts);
  }
  auto parts(State& x) const {
    return Eigen::Map<Eigen::Array<double, Eigen::Dynamic, thermal::cutter_parts>>(
        x.data() + first(Block::table_near), cutters, thermal::cutter_parts);
  }

  /// The error of every entry worth 1 per relative tolerance of 1.
  State error_scales() const {
    State scales(size());
    for (const BlockRule& rule : block_rules) of(rule.block, scales).setConstant(rule.error_scale);
    return scales;
  }

 private:
  std::array<Eigen::Index, block_rules.size() + 1> first_{};
};

}  // namespace dullcast::simulation
