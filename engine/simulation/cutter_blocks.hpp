#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "models/thermal/heat_balance.hpp"

namespace dullcast::simulation {

/// The cutters' part of the thermal matrix's arrow (thermal_matrix.hpp): of every cutter its parts on each
/// other, the shared stores on them and they on the shared stores. One array an entry, one place a cutter, so
/// that all cutters are worked upon at once (wide.hpp). Allocates on construction only.
class CutterBlocks {
 public:
  static constexpr std::size_t parts = thermal::cutter_parts, stores = thermal::shared_stores;

  explicit CutterBlocks(Eigen::Index cutters);

  /// Sets all cutters' entries, 1/s, from the slopes of their flows (W/K), the capacities of their parts
  /// (J/K) and what warms the shared stores (K/J). Of each part it takes along how fast it runs away from the
  /// falling part of its boiling curve, and K of the fluid for a K of it.
  void set(const thermal::HeatBalance& balance, const std::vector<thermal::PartArray>& capacity,
           const Eigen::Vector3d& per_heat);
  /// Whether every cutter's own block decays: all pivots of its negative are above 0.
  bool decay() const;
  /// Inverts (shift I - own) of each, without what falls faster than `most` (1/s); what that block lets
  /// through from the shared stores to each other, to be taken from their own.
  Eigen::Matrix3d factorise(double shift, double most);
  /// What heat in the parts (one column a part, one place a cutter) adds to the shared stores.
  Eigen::Vector3d carry(const double* columns) const;
  /// The parts' solution, in place, where that of the shared stores is known.
  void solve(const Eigen::Vector3d& shared, double* columns) const;

 private:
  using Entry = std::vector<double>;
  void fill_up();
  int cutters_;
  std::size_t room_;  // places of an entry
  std::array<Entry, parts * parts> own_, inverse_;
  std::array<Entry, parts * stores> from_shared_,
      through_;  // of parts by stores; through_ = inverse from_shared
  std::array<Entry, parts * stores> to_shared_, held_,
      carried_;  // of stores by parts; carried_ = held inverse
  std::array<Entry, parts> falling_, fluid_per_part_, per_capacity_;
  mutable std::array<Entry, parts> solution_;
};

}  // namespace dullcast::simulation
