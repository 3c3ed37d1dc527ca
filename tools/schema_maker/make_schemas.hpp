#pragma once

#include <map>
#include <string>

namespace dullcast::schema_maker {

/// A JSON schema (draft 7) for each kind of YAML file that people write, by its file's name
/// ("scenario.json"): scenario, sweep_plan, shop_plan, shelf, learned, and the files of the library. Keys,
/// units, ranges and words to choose are what the readers ask for; what a key means is what
/// scenarios/README.md says. A schema is for completing and for slips: what holds together is for `dullcast
/// check` to say. `scenarios` is the source tree's folder. Throws ScenarioErrors, std::runtime_error as
/// asked_keys.
std::map<std::string, std::string> make_schemas(const std::string& scenarios);

}  // namespace dullcast::schema_maker
