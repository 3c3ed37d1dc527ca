#pragma once

#include <cstddef>
#include <string>

/// Text files that people name, read in bounded time and memory whatever the name leads to.
namespace dullcast::input {

/// The most that a scenario, a plan or a file of the library may hold: many times what any does.
inline constexpr std::size_t most_scenario_bytes = 4u << 20;
/// The most that a table of cases may hold: a million cases of some factors each.
inline constexpr std::size_t most_table_bytes = 64u << 20;

/// The file's bytes. Throws ScenarioErrors when it cannot be read, is no ordinary file (a folder, a device, a
/// pipe: nothing is waited for) or holds more than `most` bytes, of which no more are read.
std::string read_text_file(const std::string& path, std::size_t most = most_scenario_bytes);

}  // namespace dullcast::input
