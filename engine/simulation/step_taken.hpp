#pragma once

#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/state_layout.hpp"

namespace dullcast::simulation {

/// The last accepted step of a run, as events and rows see it: from one place on the stepper's own clock to
/// another.
class StepTaken {
 public:
  StepTaken() = default;
  StepTaken(const StepTaken&) = delete;
  StepTaken& operator=(const StepTaken&) = delete;
  virtual ~StepTaken() = default;

  /// Where it began and ended: s, or m of depth.
  virtual double begins() const = 0;
  virtual double ends() const = 0;
  /// The state at a place inside, and the run's time there (s); `end` is the state where it ended.
  virtual void between(double at, const State& end, State& x) const = 0;
  virtual double time_at(double at) const = 0;
  /// Takes it again, only `size` long (0 < size <= its size): x and time (s) move to its new end, which the
  /// system has evaluated.
  virtual void retake(double size, State& x, double& time) = 0;
};

/// A step of the linearly implicit stepper: its clock is the run's time.
class StepInTime final : public StepTaken {
 public:
  StepInTime(LinearlyImplicitStepper& stepper, DrillingSystem& system) : stepper_(stepper), system_(system) {}
  double begins() const override { return stepper_.last_start_time(); }
  double ends() const override { return stepper_.last_end_time(); }
  void between(double at, const State& end, State& x) const override {
    stepper_.interpolate(at, end, system_.layout().slow_from(), x);
  }
  double time_at(double at) const override { return at; }
  void retake(double size, State& x, double& time) override {
    stepper_.retake(std::ref(system_), x, time, size);
  }

 private:
  LinearlyImplicitStepper& stepper_;
  DrillingSystem& system_;
};

}  // namespace dullcast::simulation
