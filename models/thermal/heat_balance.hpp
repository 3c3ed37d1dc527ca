#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <initializer_list>
#include <vector>

#include "models/common/wide.hpp"
#include "models/thermal/heat_network.hpp"

namespace dullcast::thermal {

/// The stores of heat that all cutters share.
enum SharedStore : Eigen::Index { body_store, fluid_store, warm_rock_store };
inline constexpr Eigen::Index shared_stores = 3;

/// Where heat goes that no store keeps: off with fluid, steam and cuttings or into the wall; into the
/// undisturbed rock; and into water that fills the bottom up, which stays there.
enum class Sink { carried_off, left_in_rock, taken_by_filling };
inline constexpr std::size_t sinks = 3;

/// Stores as one cutter sees them: its parts, then the shared ones.
inline constexpr std::size_t seen_stores = std::size_t{cutter_parts} + std::size_t{shared_stores};

/// What the flows of one block of cutters make, side by side (wide.hpp): heat into each store, and its slope
/// by each, of every cutter.
struct BlockOfFlows {
  double heat[seen_stores][wide_block] = {};
  double slope[seen_stores][seen_stores][wide_block] = {};
};

/// The heat balance of a bit at one instant: what flows into each store, and how that answers to
/// temperatures. A flow is written down once, with its slopes: what leaves one store enters the other, and so
/// do its slopes. Heat is conserved by construction, and rates and Jacobian cannot come apart. Cutters meet
/// only through the shared stores, so the Jacobian is an arrow. Allocates on construction only.
class HeatBalance {
 public:
  /// One store: a part of a cutter, or a shared one.
  struct Store {
    Eigen::Index cutter = -1;  // -1: shared
    Eigen::Index number = 0;   // CutterPart or SharedStore
  };
  static Store part(Eigen::Index cutter, Eigen::Index part) { return {cutter, part}; }
  static Store shared(SharedStore store) { return {-1, store}; }

  /// How a flow answers to the temperature of one store, W/K.
  struct Slope {
    Store by;
    double value = 0.0;
  };
  using Slopes = std::initializer_list<Slope>;

  explicit HeatBalance(Eigen::Index cutters);
  /// Forgets every flow.
  void clear();
  /// Heat (W) from one store into another. Parts of two cutters do not touch each other.
  void move(Store from, Store to, double heat, Slopes slopes) {
    heat_into(from) -= heat;
    heat_into(to) += heat;
    for (const Slope& slope : slopes) {
      slope_of(from, slope.by) -= slope.value;
      slope_of(to, slope.by) += slope.value;
    }
  }
  /// Heat conducted from one store into another, W: conductance (W/K) times the difference of their
  /// temperatures.
  void conduct(Store from, Store to, double conductance, double T_from, double T_to) {
    move(from, to, conductance * (T_from - T_to), {{from, conductance}, {to, -conductance}});
  }
  /// Where the flows of all cutters are written down, block by block. What they make of the shared stores
  /// counts once `add_up_cutters` has been called; until then these stand as they were.
  std::vector<BlockOfFlows>& cutters() { return blocks_; }
  const std::vector<BlockOfFlows>& cutters() const { return blocks_; }
  void add_up_cutters();
  /// States that of a part's slopes into the fluid, written down in move(), so much falls as the part gets
  /// hotter (W/K, > 0): what a linearly implicit step may have to leave out (ThermalMatrix::factorise). It
  /// has done so since it was `from_peak` colder (K, 0 or more).
  void falls(Eigen::Index cutter, Eigen::Index part, double slope, double from_peak = 0.0) {
    falling_[static_cast<std::size_t>(cutter)](part) = slope;
    from_peak_[static_cast<std::size_t>(cutter)](part) = from_peak;
    any_falls_ = true;
  }
  bool any_falls() const { return any_falls_; }
  /// States that flows bend with temperature: something boils, or rock softens. Otherwise they run straight.
  void bend() { bends_ = true; }
  bool bends() const { return bends_; }
  const PartArray& falling(Eigen::Index cutter) const { return falling_[static_cast<std::size_t>(cutter)]; }
  /// Of parts that fall only.
  const PartArray& from_peak(Eigen::Index cutter) const {
    return from_peak_[static_cast<std::size_t>(cutter)];
  }
  /// Work (W) that becomes heat in a store.
  void bring(Store to, double heat) { heat_into(to) += heat; }
  /// Heat (W) that leaves a shared store for good; its slopes are by shared stores.
  void leave(SharedStore from, Sink to, double heat, Slopes slopes);

  double into(SharedStore store) const { return shared_heat_(store); }
  PartArray into_parts(Eigen::Index cutter) const;
  double into(Sink sink) const { return sink_heat_[static_cast<std::size_t>(sink)]; }

  /// Slopes by the shared stores of what flows into these and into a sink, W/K; those by and of a cutter's
  /// parts stand in its block.
  const Eigen::Matrix3d& shared_by_shared() const { return shared_; }
  const Eigen::RowVector3d& by_shared(Sink sink) const { return sink_slope_[static_cast<std::size_t>(sink)]; }

 private:
  static std::size_t block_of(Eigen::Index cutter) { return static_cast<std::size_t>(cutter) / wide_block; }
  static std::size_t lane_of(Eigen::Index cutter) { return static_cast<std::size_t>(cutter) % wide_block; }
  static std::size_t seen(Store store) {
    return static_cast<std::size_t>(store.cutter < 0 ? cutter_parts + store.number : store.number);
  }
  double& heat_into(Store store) {
    return store.cutter < 0 ? shared_heat_.coeffRef(store.number)
                            : blocks_[block_of(store.cutter)].heat[seen(store)][lane_of(store.cutter)];
  }
  double& slope_of(Store row, Store column) {
    if (row.cutter < 0 && column.cutter < 0) return shared_.coeffRef(row.number, column.number);
    if (row.cutter >= 0 && column.cutter >= 0 && row.cutter != column.cutter) refuse_two_cutters();
    const Eigen::Index cutter = std::max(row.cutter, column.cutter);
    return blocks_[block_of(cutter)].slope[seen(row)][seen(column)][lane_of(cutter)];
  }
  [[noreturn]] static void refuse_two_cutters();

  std::vector<BlockOfFlows> blocks_;
  std::vector<PartArray> falling_, from_peak_;
  bool any_falls_ = false, bends_ = false;
  Eigen::Array3d shared_heat_;
  std::array<double, sinks> sink_heat_{};
  Eigen::Matrix3d shared_;
  std::array<Eigen::RowVector3d, sinks> sink_slope_;
};

}  // namespace dullcast::thermal
