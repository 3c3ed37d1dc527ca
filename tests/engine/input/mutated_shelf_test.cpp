#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/input/shelf_texts.hpp"
#include "engine/input/shelf_writer.hpp"
#include "engine/input/text_file.hpp"

// Broken shelves end in located errors or in records whose runs can be drilled, and adding to one never
// changes what was there.
namespace dullcast::input {
namespace {

constexpr std::string_view odd_letters = " \n\r\t:{}[]-,;|#'\"&*!0123456789.eE+/()abmnft\\\x01\xc2\xff";

/// The first lines of the shipped table, in the manner of one separator.
std::string small_table(char separator) {
  const std::string all = read_text_file(testing::scenario_folder() + "/shelf_of_forty_bits.csv");
  std::size_t end = 0;
  for (int line = 0; line < 3; ++line) end = all.find('\n', end) + 1;
  std::string text = all.substr(0, end);
  if (separator == ',') return text;
  for (char& c : text) c = c == ';' ? '|' : c;
  std::replace(text.begin(), text.end(), ',', separator);
  return text;
}

constexpr const char* small_list =
    "# ours\n"
    "shared: {scenario: pump_lost.yaml, lot: mixed}\n"
    "shelf:\n"
    "  - {bit: A, inspected: 2031-04-17, holes: 3, drilled: [shale 30 m, sandstone 12 ft], outer_grade: at "
    "least 2}\n"
    "  - bit: B\n"
    "    weight_on_bit: 4500 lbf   # as far as he knew\n"
    "    dull_grading: 2-4-WT-S-X-1/16-CT-TD\n"
    "    cutter_3: heat-checked flat 6 mm\n"
    "    cutter_18: at least 2 mm\n"
    "    repairs: [one, two]\n"
    "title: \"a shelf\"\n";

/// What cannot be drilled in a record that was read; empty when all can.
std::string fault_of(const scenario::ShelvedBit& record) {
  const scenario::Scenario& run = record.run;
  if (record.found.bit.empty()) return "no name";
  if (!(record.found.holes >= 1.0) || run.repeat.holes != record.found.holes) return "holes";
  double above = 0.0;
  for (const scenario::Layer& layer : run.column.layers) {
    if (layer.top != above || !(layer.bottom > above) || !std::isfinite(layer.bottom)) return "layers";
    above = layer.bottom;
  }
  double from = 0.0;
  for (const scenario::OperatingInterval& interval : run.plan) {
    if (interval.from != from || !(interval.to > from)) return "plan";
    if (!std::isfinite(interval.weight_on_bit.value_or(0.0)) || !(interval.rotary_speed > 0.0) ||
        !(interval.flow >= 0.0))
      return "settings";
    from = interval.to;
  }
  if (from != above) return "plan's end";
  for (const scenario::CutterSeen& seen : record.found.cutters) {
    if (seen.worn_height && !(*seen.worn_height >= 0.0 && *seen.worn_height < 0.1)) return "worn height";
  }
  return "";
}

std::string broken(const std::string& text, std::mt19937& random) {
  std::string result = text;
  const int changes = random() % 4 == 0 ? 3 : 1;
  for (int k = 0; k < changes && !result.empty(); ++k) {
    const std::size_t at = random() % result.size();
    const char letter = odd_letters[random() % odd_letters.size()];
    switch (random() % 4) {
      case 0:
        result[at] = letter;
        break;
      case 1:
        result.insert(at, 1, letter);
        break;
      case 2:
        result.erase(at, 1 + random() % 5);
        break;
      default:
        result.insert(at, result.substr(random() % result.size(), random() % 30));
    }
  }
  return result;
}

/// Reads broken texts and adds to each; how many could be read.
int read_broken(const std::string& text, const std::string& name, unsigned seed) {
  std::mt19937 random(seed);
  int read = 0;
  for (int round = 0; round < 700; ++round) {
    const std::string odd = broken(text, random);
    std::size_t records = 0;
    try {
      const auto shelf = testing::shelf_of(odd, name);
      for (const scenario::ShelvedBit& record : shelf) EXPECT_EQ(fault_of(record), "") << odd;
      records = shelf.size();
      ++read;
    } catch (const ScenarioErrors& errors) {
      for (const std::string& message : errors.messages())
        EXPECT_TRUE(message.find(name + ":") != std::string::npos || message.starts_with("and ")) << message;
      continue;
    }
    try {
      const std::string after =
          with_record(odd, name, {{"bit", "new, one"}, {"scenario", "pump_lost.yaml"}, {"lost", "1"}});
      const auto shelf = testing::shelf_of(after, name);
      EXPECT_EQ(shelf.size(), records + 1) << odd;
      EXPECT_GT(after.size(), odd.size());
    } catch (const ScenarioErrors&) {
      // a list between brackets, say
    }
  }
  return read;
}

TEST(MutatedShelf, TablesAreReadOrRefused) {
  EXPECT_GT(read_broken(small_table(','), "s.csv", 1), 20);
  EXPECT_GT(read_broken(small_table(';'), "s.csv", 2), 20);
}

TEST(MutatedShelf, ListsAreReadOrRefused) {
  EXPECT_GT(read_broken(small_list, "s.yaml", 3), 20);
}

TEST(MutatedShelf, CutShortAnywhereItIsReadOrRefused) {
  for (const auto& [text, name] : {std::pair<std::string, const char*>(small_table(','), "s.csv"),
                                   std::pair<std::string, const char*>(small_list, "s.yaml")}) {
    for (std::size_t length = 0; length < text.size(); length += 7) {
      try {
        for (const scenario::ShelvedBit& record : testing::shelf_of(text.substr(0, length), name))
          EXPECT_EQ(fault_of(record), "");
      } catch (const ScenarioErrors& errors) {
        EXPECT_FALSE(errors.messages().empty());
      }
    }
  }
}

}  // namespace
}  // namespace dullcast::input
