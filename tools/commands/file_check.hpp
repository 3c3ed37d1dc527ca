#pragma once

#include <string>
#include <vector>

namespace dullcast::commands {

/// What was found in one file, whatever it is: a scenario, a sweep's plan, a shop's plan, a file of the
/// library, a shelf of inspected bits, the result of a run or of a sweep, or a part of one.
struct FileCheck {
  std::string what;                   // "a scenario", "a plan of 3600 runs over field.yaml"
  std::vector<std::string> unwise;    // sentences with their places
  std::vector<std::string> faults;    // likewise, the first of many; what has one cannot be used
  std::size_t count = 0;              // of all faults
  std::string good = "can be run";    // said where there is no fault
  std::string bad = "cannot be run";  // said where there is
  std::string resolved;               // of a scenario: every value written out
};

/// Reads the file for all that is wrong or unwise in it and in what it leads to (an earlier result that a bit
/// goes on from, the scenario of an inspected bit, a sweep's base scenario and the cases that it makes, the
/// tables, scenarios, results and shelves of a shop's plan). Writes nothing, and runs nothing but what
/// records of a shop's plan did. `library` is what --library gave, `sets` what --set gave, for scenarios.
/// Never throws for what is in a file.
FileCheck check_file(const std::string& file, const std::string& library,
                     const std::vector<std::string>& sets);

}  // namespace dullcast::commands
