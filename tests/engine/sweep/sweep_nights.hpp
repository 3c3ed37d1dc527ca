#pragma once

#include <atomic>
#include <string>

#include "engine/sweep/sweep_execution.hpp"

/// What tests of whole sweeps share.
namespace dullcast::testing {

inline const std::atomic<bool> never{false};

inline sweep::ExecutionOptions options_for(const std::string& output, int threads = 1) {
  sweep::ExecutionOptions options;
  options.output = output;
  options.threads = threads;
  options.program_version = "0";
  options.program_commit = "none";
  return options;
}

inline bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace dullcast::testing
