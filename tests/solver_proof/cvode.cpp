#include "solver_proof/cvode.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <cmath>
#include <exception>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace dullcast::testing {
namespace {

/// Farther than any run goes, near enough to stand beside a time in doubles, s.
constexpr double far = 1e9;

}  // namespace

struct Cvode::Memory {
  Slope slope;
  Values watched;
  simulation::State x, rate;
  std::vector<int> found;
  SUNContext context = nullptr;
  N_Vector y = nullptr, absolute = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* cvode = nullptr;

  ~Memory() {
    CVodeFree(&cvode);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(absolute);
    N_VDestroy(y);
    SUNContext_Free(&context);
  }

  // Nothing may be thrown through C: what throws is a state to be avoided, and CVODE gives up where it can't.
  static int slope_at(double, N_Vector y, N_Vector ydot, void* self) {
    auto& m = *static_cast<Memory*>(self);
    m.x = Eigen::Map<const simulation::State>(NV_DATA_S(y), m.x.size());
    try {
      if (!m.slope(m.x, m.rate) || !m.rate.allFinite()) return 1;
    } catch (const std::exception&) {
      return 1;
    }
    Eigen::Map<simulation::State>(NV_DATA_S(ydot), m.x.size()) = m.rate;
    return 0;
  }
  static int values_at(double, N_Vector y, double* values, void* self) {
    auto& m = *static_cast<Memory*>(self);
    m.x = Eigen::Map<const simulation::State>(NV_DATA_S(y), m.x.size());
    try {
      m.watched(m.x, values);
    } catch (const std::exception&) {
      return -1;
    }
    return 0;
  }
};

void Cvode::check(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(std::string("CVODE: ") + what + ": flag " + std::to_string(flag));
}

Cvode::Cvode(const simulation::State& x, double relative, const simulation::State& absolute, Slope slope,
             int values, Values watched)
    : memory_(new Memory) {
  Memory& m = *memory_;
  m.slope = std::move(slope);
  m.watched = std::move(watched);
  m.x = m.rate = x;
  m.found.assign(static_cast<std::size_t>(values), 0);
  const auto n = static_cast<sunindextype>(x.size());
  check(SUNContext_Create(nullptr, &m.context), "context");
  m.y = N_VNew_Serial(n, m.context);
  m.absolute = N_VNew_Serial(n, m.context);
  Eigen::Map<simulation::State>(NV_DATA_S(m.y), x.size()) = x;
  Eigen::Map<simulation::State>(NV_DATA_S(m.absolute), x.size()) = absolute;
  m.cvode = CVodeCreate(CV_BDF, m.context);
  check(CVodeInit(m.cvode, Memory::slope_at, 0.0, m.y), "start");
  check(CVodeSVtolerances(m.cvode, relative, m.absolute), "tolerances");
  check(CVodeSetUserData(m.cvode, &m), "data");
  m.matrix = SUNDenseMatrix(n, n, m.context);
  m.linear = SUNLinSol_Dense(m.y, m.matrix, m.context);
  check(CVodeSetLinearSolver(m.cvode, m.linear, m.matrix), "linear solver");
  if (values > 0) {
    check(CVodeRootInit(m.cvode, values, Memory::values_at), "roots");
    std::vector<int> rising(static_cast<std::size_t>(values), 1);
    check(CVodeSetRootDirection(m.cvode, rising.data()), "roots' direction");
    check(CVodeSetNoInactiveRootWarn(m.cvode), "roots' warnings");
  }
}

Cvode::~Cvode() {
  delete memory_;
}

void Cvode::restart(double t, const simulation::State& x, double until) {
  steps_before_ = steps();
  Eigen::Map<simulation::State>(NV_DATA_S(memory_->y), x.size()) = x;
  check(CVodeReInit(memory_->cvode, t, memory_->y), "restart");
  check(CVodeSetStopTime(memory_->cvode, std::isfinite(until) ? until : t + far), "stop time");
  t_ = t;
}

int Cvode::step() {
  Memory& m = *memory_;
  const int flag = CVode(m.cvode, t_ + far, m.y, &t_, CV_ONE_STEP);
  check(flag, "step");
  if (flag != CV_ROOT_RETURN) return -1;
  check(CVodeGetRootInfo(m.cvode, m.found.data()), "which root");
  for (std::size_t k = 0; k < m.found.size(); ++k)
    if (m.found[k] > 0) return static_cast<int>(k);
  return -1;
}

void Cvode::state_at(double t, simulation::State& x) const {
  // y is CVODE's own between steps only where it returned; a vector over x's own memory takes the state.
  N_Vector into = N_VMake_Serial(static_cast<sunindextype>(x.size()), x.data(), memory_->context);
  const int flag = CVodeGetDky(memory_->cvode, t, 0, into);
  N_VDestroy(into);
  check(flag, "state within a step");
}

long Cvode::steps() const {
  long now = 0;
  CVodeGetNumSteps(memory_->cvode, &now);
  return steps_before_ + now;
}

}  // namespace dullcast::testing
