#pragma once

#include <functional>
#include <map>
#include <string>

#include "engine/input/scenario_reader.hpp"

/// What the feeds share.
namespace dullcast::fuzz {

/// A reader against the shipped library. It keeps each unit that it has met, so it is made anew now and then.
const input::ScenarioReader& fed_reader();

/// A folder of this process alone, where what a text leads to stands: well.yaml, a short hole. Removed as the
/// process ends.
const std::string& fed_folder();

/// Puts a file into the folder, or takes it away where there is no text.
void put_beside(const std::string& name, const std::string* text);

/// The parts of a text that lines "==== NAME" divide, by name; what stands before the first goes by `first`.
std::map<std::string, std::string> parts_of_fed(const std::string& bytes, const std::string& first);

/// Calls `read`, which may refuse with ScenarioErrors. Whether it did not; throws Fault where an error has no
/// words, no place or control characters, or where there are more than are to be told.
bool was_read(const std::function<void(std::vector<input::Warning>& warnings)>& read);

/// Throws Fault unless every number of the scenario is finite and its spread in order.
void must_be_finite(scenario::Scenario scenario);

}  // namespace dullcast::fuzz
