#pragma once

#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// What the same bit would do new: its speed at the same settings.
class NewBitReference {
 public:
  explicit NewBitReference(const RunModels& models);
  /// Rate of penetration of the unworn bit under a weight (N) in a drilling interval, m/s, in its rock as
  /// clean or packed slots leave it. What is among the last few dozens of questions is answered without work,
  /// and what differs little from one of them, in weight or drilling efficiency, from its slope, to some
  /// 1e-5. `worn`: how the worn bit sits there, near which the answer is looked for first.
  double rate_of_penetration(const DrillingInterval& interval, const cutting::RockResistance& rock,
                             double weight, const cutting::Balance& worn);

 private:
  const BitModels* bit_;
  geometry::WornProfile profile_;
  cutting::BladeBearing blades_;
  Eigen::ArrayXd carbide_share_;
  /// What a balance of the unworn bit follows from.
  struct Question {
    cutting::RockResistance rock;
    double weight = 0.0, most_depth_of_cut = 0.0;
  };
  struct Answer {
    Question question;
    double depth_of_cut = 0.0, slope = 0.0;  // m, and N/m by which weight grows with it; 0 at the feed limit
  };
  const Answer* nearest(const Question& asked) const;
  static constexpr std::size_t most_answers = 32;
  std::vector<Answer> answers_;  // the same layers come again with every hole
  std::size_t next_forgotten_ = 0;
  cutting::BalanceStorage storage_;
};

/// The time that this hole has taken beside what the same bit new would have taken, so that one thin hard bed
/// does not condemn a bit. Call begin() at the collar, enter() at the top of a drilling interval and note()
/// after each step, with `system` evaluated at that state.
class HoleSpeed {
 public:
  explicit HoleSpeed(const RunModels& models) : new_bit_(models) {}
  void begin() { hole_time_ = new_bit_time_ = 0.0; }
  void enter(const DrillingSystem& system, double rotating_time);
  void note(const DrillingSystem& system, double rotating_time);
  /// Time a new bit would have taken over time taken, in this hole so far; 1 before it begins.
  double share_of_new() const { return hole_time_ > 0.0 ? new_bit_time_ / hole_time_ : 1.0; }

 private:
  NewBitReference new_bit_;
  double last_time_ = 0.0, last_ratio_ = 1.0, hole_time_ = 0.0, new_bit_time_ = 0.0;
};

}  // namespace dullcast::simulation
