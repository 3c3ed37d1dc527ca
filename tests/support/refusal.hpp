#pragma once

#include <stdexcept>
#include <string>

namespace dullcast::testing {

/// The sentence of the std::domain_error that a call throws; empty when it throws none.
template <class Call>
std::string refusal(Call&& call) {
  try {
    (void)call();
  } catch (const std::domain_error& error) {
    return error.what();
  }
  return {};
}

}  // namespace dullcast::testing
