#pragma once

#include <optional>
#include <vector>

#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// A system beside the stepped one, for looking without touching that. It is made when it is first asked for,
/// as if it had been there all along: many a run never looks.
class SpareSystem {
 public:
  /// `relative_tolerance` as DrillingSystem::let_forces_stand has it.
  explicit SpareSystem(const RunModels& models, double relative_tolerance = 0.0)
      : models_(&models), relative_tolerance_(relative_tolerance) {}

  /// As DrillingSystem has them.
  void enter(const DrillingInterval& interval) {
    interval_ = &interval;
    known_ = false;
    if (system_) system_->enter(interval);
  }
  void set_ruined(Eigen::Index cutter) {
    ruined_.push_back(cutter);
    known_ = false;
    if (system_) system_->set_ruined(cutter);
  }
  void set_lost(Eigen::Index cutter) {
    lost_.push_back(cutter);
    known_ = false;
    if (system_) system_->set_lost(cutter);
  }
  /// The system itself, in the interval that was entered last.
  const DrillingSystem& system() {
    if (!system_) make();
    return *system_;
  }
  /// The same, having evaluated x.
  const DrillingSystem& at(const State& x) {
    if (!system_) make();
    if (known_ && x == at_) return *system_;
    known_ = false;  // until all is
    at_ = x;
    slope_.resize(x.size());
    (*system_)(at_, slope_, 0.0);
    known_ = true;
    return *system_;
  }

 private:
  void make() {
    system_.emplace(*models_);
    system_->let_forces_stand(relative_tolerance_);
    for (const Eigen::Index cutter : ruined_) system_->set_ruined(cutter);
    for (const Eigen::Index cutter : lost_) system_->set_lost(cutter);
    if (interval_ != nullptr) system_->enter(*interval_);
  }

  const RunModels* models_;
  double relative_tolerance_;
  const DrillingInterval* interval_ = nullptr;
  std::vector<Eigen::Index> ruined_, lost_;
  std::optional<DrillingSystem> system_;
  State at_, slope_;
  bool known_ = false;  // the system stands at at_
};

}  // namespace dullcast::simulation
