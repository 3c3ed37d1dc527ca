#pragma once

#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// Holds a system's forces while it looks at other temperatures, and has it stand where it stood afterwards,
/// whatever comes of that.
class StandKept {
 public:
  StandKept(DrillingSystem& system, DrillingSystem::Stand& stand) : system_(system), stand_(stand) {
    system_.keep_stand(stand_);
    system_.hold_forces(true);
  }
  ~StandKept() {
    system_.hold_forces(false);
    system_.go_back(stand_);
  }
  StandKept(const StandKept&) = delete;
  StandKept& operator=(const StandKept&) = delete;

 private:
  DrillingSystem& system_;
  DrillingSystem::Stand& stand_;
};

}  // namespace dullcast::simulation
