#include "engine/input/scenario_writer.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {
namespace {

/// What is read is finite, and its resolved text is read as the same scenario.
void must_read_the_same(const scenario::Scenario& scenario) {
  must_be_finite(scenario);
  scenario::Scenario again;
  std::string why;
  const bool read = was_read([&](std::vector<input::Warning>& warnings) {
    try {
      again = fed_reader().read_text(scenario.text, scenario.file, {}, warnings);
    } catch (const input::ScenarioErrors& errors) {
      why = errors.messages().front();
      throw;
    }
  });
  if (!read) throw Fault("the resolved text is refused: " + why);
  if (again.text != scenario.text) throw Fault("the resolved text resolves to another");
}

}  // namespace

void take_scenario(const std::string& bytes) {
  was_read([&](std::vector<input::Warning>& warnings) {
    must_read_the_same(fed_reader().read_text(bytes, fed_folder() + "/fed.yaml", {}, warnings));
  });
}

void take_sets(const std::string& bytes) {
  static const std::string well =
      "title: changed\nbit: {like: three_blade_3_3_4}\nfluid: water\nplan:\n  - {weight_on_bit: 2000 lbf, "
      "rotary_speed: 85 rpm, flow: 20 gal/min}\ncolumn:\n  layers:\n    - {rock: shale, thickness: 3 ft}\n";
  std::vector<std::string> sets;
  for (std::size_t at = 0; at < bytes.size() && sets.size() < 20;) {
    const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
    sets.push_back(bytes.substr(at, end - at));
    at = end + 1;
  }
  was_read([&](std::vector<input::Warning>& warnings) {
    must_read_the_same(fed_reader().read_text(well, fed_folder() + "/fed.yaml", sets, warnings));
  });
}

void take_learned(const std::string& bytes) {
  static const std::string well =
      "title: taught\nlearned: learned.yaml\nbit: {like: three_blade_3_3_4, lot: autumn}\nfluid: water\n"
      "plan:\n  - {weight_on_bit: 2000 lbf, rotary_speed: 85 rpm, flow: 20 gal/min}\ncolumn:\n  layers:\n"
      "    - {rock: sandstone, thickness: 3 ft}\nlots: {autumn: {like: sound}}\n";
  put_beside("learned.yaml", &bytes);
  was_read([&](std::vector<input::Warning>& warnings) {
    must_read_the_same(fed_reader().read_text(well, fed_folder() + "/fed.yaml", {}, warnings));
  });
}

}  // namespace dullcast::fuzz
