#pragma once

#include <string>

/// The benchmarks, by the first word of their names. tools/measure-runs runs them and makes tables of what
/// they count beside their times.
namespace dullcast::bench {

/// "kernel/WHAT"
void register_kernels();
/// "run/VARIANT/WAY/TOLERANCE": whole runs, by the engine's two ways and, of the plain one, by CVODE.
void register_runs();
/// "layer/SOLVER/TOLERANCE": the hard layer by the engine, its stepper alone and general solvers.
void register_solvers();
/// "growth/OF/NUMBER/WHAT"
void register_growth();

/// Answers on the standard output, in binary, what right-hand sides are at states on the standard input, for
/// solvers in other languages (tools/bench/lsoda.py). Returns when there is no more to read.
void answer_right_hand_sides();

/// A tolerance as names of benchmarks have it.
inline std::string tolerance_name(int power) {
  return "1e-" + std::to_string(power);
}

}  // namespace dullcast::bench
