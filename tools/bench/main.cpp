#include <benchmark/benchmark.h>

#include <cstdio>
#include <exception>
#include <string_view>

#include "tools/bench/benchmarks.hpp"

// The options are Google Benchmark's (--help), and --right-hand-sides (benchmarks.hpp).
int main(int count, char** words) {
  using namespace dullcast::bench;
  try {
    if (count == 2 && std::string_view(words[1]) == "--right-hand-sides") {
      answer_right_hand_sides();
      return 0;
    }
    benchmark::Initialize(&count, words);
    if (benchmark::ReportUnrecognizedArguments(count, words)) return 2;
    register_kernels();
    register_runs();
    register_solvers();
    register_growth();
    benchmark::RunSpecifiedBenchmarks();
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "bench: %s\n", error.what());
    return 1;
  }
}
