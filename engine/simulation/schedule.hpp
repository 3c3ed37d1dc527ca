#pragma once

#include <algorithm>
#include <array>
#include <limits>
#include <vector>

#include "engine/simulation/assembly.hpp"

namespace dullcast::simulation {

/// Times nearer than this are one: steps that end on one may miss it by rounding, s.
inline constexpr double same_time = 1e-9;
/// And depths, m.
inline constexpr double same_depth = 1e-9;

/// What the driller, the pump and mishaps do along one hole: the plan, changed for a while by upsets and by
/// the adding of rods. Says when the next change comes, by depth or by time, and what holds until then.
class Schedule {
 public:
  Schedule(const scenario::Scenario& scenario, const RunModels& models);

  enum class Kind { upset_begins, upset_ends, connection_begins, connection_ends };
  struct Change {
    Kind kind = Kind::upset_begins;
    std::size_t upset = 0;  // number of the upset, where it is one
  };

  /// Forgets what still went on and starts a hole at depth `top` (m).
  void begin_hole(int hole, double top);
  /// The planned interval that is drilled next; upsets that still go on change it too.
  void follow(const DrillingInterval& planned);

  /// What holds now. Valid until the second change after this call.
  const DrillingInterval& current() const { return *current_; }
  /// Depth at which the next change begins, and time at which one ends; infinity for none.
  double next_depth() const { return std::min(next_upset(), next_connection()); }
  double next_time() const;
  /// Of the changes by depth: the next upset, and the next rod that takes time.
  double next_upset() const;
  double next_connection() const;
  /// Counts the next rod as added, without stopping for it.
  void pass_connection();
  /// The planned interval as it is while a rod is added.
  DrillingInterval while_connecting() const;
  /// Makes the changes that are due at depth z and time t, in order, and tells which.
  std::vector<Change> advance(double z, double t);

  /// Nothing but the plan goes on.
  bool as_planned() const { return active_.empty() && !connecting_; }
  bool upset() const { return !active_.empty(); }
  /// Rods added in this hole down to depth z (m). Where adding them takes no time they are not stopped for.
  int connections(double z) const;

 private:
  struct Active {
    std::size_t upset = 0;
    double ends = 0.0;  // s
  };
  void apply();
  void lift(scenario::OperatingInterval& interval) const;

  const scenario::Scenario* scenario_;
  const RunModels* models_;
  const DrillingInterval* planned_ = nullptr;
  const DrillingInterval* current_ = nullptr;
  std::array<DrillingInterval, 2> changed_;
  std::size_t next_slot_ = 0;
  int hole_ = 0, connections_ = 0;
  double next_connection_ = std::numeric_limits<double>::infinity();  // m
  bool connecting_ = false;
  double connection_ends_ = 0.0;
  std::vector<char> begun_;  // which upsets have begun in this hole
  std::vector<Active> active_;
};

}  // namespace dullcast::simulation
