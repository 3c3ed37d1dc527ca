#pragma once

#include <Eigen/Core>
#include <array>
#include <initializer_list>
#include <vector>

#include "models/thermal/heat_network.hpp"

namespace dullcast::thermal {

/// The stores of heat that all cutters share.
enum SharedStore : Eigen::Index { body_store, fluid_store, warm_rock_store };
inline constexpr Eigen::Index shared_stores = 3;

/// Where heat goes that no store keeps: off with fluid, steam and cuttings or into the wall; into the
/// undisturbed rock; and into water that fills the bottom up, which stays there.
enum class Sink { carried_off, left_in_rock, taken_by_filling };
inline constexpr std::size_t sinks = 3;

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
  /// The same, its slopes one by one: where stores are told as they are written down, as in the loop over
  /// cutters, nothing of where each stands is left to find out.
  template <class... Each>
  [[gnu::always_inline]] void flow(Store from, Store to, double heat, const Each&... slopes) {
    heat_into(from) -= heat;
    heat_into(to) += heat;
    ((slope_of(from, slopes.by) -= slopes.value, slope_of(to, slopes.by) += slopes.value), ...);
  }
  /// Heat conducted from one store into another, W: conductance (W/K) times the difference of their
  /// temperatures.
  [[gnu::always_inline]] void conduct(Store from, Store to, double conductance, double T_from, double T_to) {
    flow(from, to, conductance * (T_from - T_to), Slope{from, conductance}, Slope{to, -conductance});
  }
  /// States that of a part's slopes into the fluid, written down in move(), so much falls as the part gets
  /// hotter (W/K, > 0): what a linearly implicit step may have to leave out (ThermalMatrix::factorise). It
  /// has done so since it was `from_peak` colder (K, 0 or more).
  void falls(Eigen::Index cutter, Eigen::Index part, double slope, double from_peak = 0.0) {
    falling_[static_cast<std::size_t>(cutter)](part) = slope;
    from_peak_[static_cast<std::size_t>(cutter)](part) = from_peak;
    any_falls_ = true;
  }
  bool any_falls() const { return any_falls_; }
  const PartArray& falling(Eigen::Index cutter) const { return falling_[static_cast<std::size_t>(cutter)]; }
  /// Of parts that fall only.
  const PartArray& from_peak(Eigen::Index cutter) const {
    return from_peak_[static_cast<std::size_t>(cutter)];
  }
  /// Work (W) that becomes heat in a store, and its slopes.
  template <class... Each>
  [[gnu::always_inline]] void bring(Store to, double heat, const Each&... slopes) {
    heat_into(to) += heat;
    ((slope_of(to, slopes.by) += slopes.value), ...);
  }
  /// Heat (W) that leaves a shared store for good; its slopes are by shared stores.
  void leave(SharedStore from, Sink to, double heat, Slopes slopes);

  double into(SharedStore store) const { return shared_heat_(store); }
  PartArray into_parts(Eigen::Index cutter) const { return part_heat_[static_cast<std::size_t>(cutter)]; }
  double into(Sink sink) const { return sink_heat_[static_cast<std::size_t>(sink)]; }

  /// Slopes of what flows into the parts of one cutter and into the shared stores, W/K: by the cutter's own
  /// parts, by the shared stores; of the shared by the parts, of the shared by each other; of a sink by the
  /// shared.
  using Parts = Eigen::Matrix4d;
  using PartsByShared = Eigen::Matrix<double, cutter_parts, shared_stores>;
  using SharedByParts = Eigen::Matrix<double, shared_stores, cutter_parts>;
  const Parts& parts_by_parts(Eigen::Index cutter) const { return own_[static_cast<std::size_t>(cutter)]; }
  const PartsByShared& parts_by_shared(Eigen::Index cutter) const {
    return from_shared_[static_cast<std::size_t>(cutter)];
  }
  const SharedByParts& shared_by_parts(Eigen::Index cutter) const {
    return to_shared_[static_cast<std::size_t>(cutter)];
  }
  const Eigen::Matrix3d& shared_by_shared() const { return shared_; }
  const Eigen::RowVector3d& by_shared(Sink sink) const { return sink_slope_[static_cast<std::size_t>(sink)]; }

 private:
  double& heat_into(Store store) {
    return store.cutter < 0 ? shared_heat_.coeffRef(store.number)
                            : part_heat_[static_cast<std::size_t>(store.cutter)].coeffRef(store.number);
  }
  double& slope_of(Store row, Store column) {
    if (row.cutter < 0 && column.cutter < 0) return shared_.coeffRef(row.number, column.number);
    if (row.cutter < 0)
      return to_shared_[static_cast<std::size_t>(column.cutter)].coeffRef(row.number, column.number);
    if (column.cutter < 0)
      return from_shared_[static_cast<std::size_t>(row.cutter)].coeffRef(row.number, column.number);
    if (row.cutter != column.cutter) refuse_two_cutters();
    return own_[static_cast<std::size_t>(row.cutter)].coeffRef(row.number, column.number);
  }
  [[noreturn]] static void refuse_two_cutters();

  std::vector<PartArray> part_heat_, falling_, from_peak_;
  bool any_falls_ = false;
  Eigen::Array3d shared_heat_;
  std::array<double, sinks> sink_heat_{};
  std::vector<Parts> own_;
  std::vector<PartsByShared> from_shared_;
  std::vector<SharedByParts> to_shared_;
  Eigen::Matrix3d shared_;
  std::array<Eigen::RowVector3d, sinks> sink_slope_;
};

}  // namespace dullcast::thermal
