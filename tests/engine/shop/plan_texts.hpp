#pragma once

#include <string>
#include <vector>

#include "engine/shop/shop_plan_reader.hpp"

/// Shop plans as texts, for tests.
namespace dullcast::testing {

inline const input::ScenarioReader& plan_scenarios() {
  static const input::ScenarioReader reader(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  return reader;
}

/// A plan with nothing to complain about, whose scenarios are those that come with the program. Lines are
/// counted in the tests: keep them.
inline const char* plan_text() {
  return "title: a small shop\n"                                                                // 1
         "time_zone: America/Winnipeg\n"                                                        // 2
         "from: 2031-11-03\n"                                                                   // 3
         "to: 2031-11-30\n"                                                                     // 4
         "shop:\n"                                                                              // 5
         "  shifts: [monday to friday 07:00 to 15:30]\n"                                        // 6
         "  holidays: [2031-11-11]\n"                                                           // 7
         "  stations:\n"                                                                        // 8
         "    - {name: wash, works_on: every bit, time: 45 min}\n"                              // 9
         "    - {name: braze, works_on: cutters, takes_cutters: yes, time_a_piece: 6 min}\n"    // 10
         "  cutters:\n"                                                                         // 11
         "    - {cutter: big, diameter: 16 mm, grade: standard, on_hand: 40}\n"                 // 12
         "rigs:\n"                                                                              // 13
         "  - {name: Heron, shifts: [every day 08:00 to 18:00], travel: 2 h}\n"                 // 14
         "designs:\n"                                                                           // 15
         "  - {name: four, bit: {like: four_blade_7_7_8, grade: standard}, lead_time: 30 d}\n"  // 16
         "bits:\n"                                                                              // 17
         "  - {bit: K-1, design: four}\n"                                                       // 18
         "holes:\n"                                                                             // 19
         "  - {hole: N-1, rig: Heron, begins: 2031-11-05, scenario: ordinary_well.yaml, design: four}\n";  // 20
}

inline std::string plan_with(const std::string& from, const std::string& to, std::string text = plan_text()) {
  const auto at = text.find(from);
  if (at == std::string::npos) return {};
  return text.replace(at, from.size(), to);
}

inline std::string plan_file() {
  return std::string(DULLCAST_SOURCE_DIR) + "/scenarios/plan.yaml";
}

inline shop::ShopPlan plan_of(const std::string& text, std::vector<std::string>* told = nullptr) {
  std::vector<input::Warning> warnings;
  shop::ShopPlan plan = shop::read_shop_plan_text(text, plan_file(), plan_scenarios(), warnings);
  if (told)
    for (const input::Warning& warning : warnings) told->push_back(warning.message());
  return plan;
}

/// The errors of reading a plan, without the name of its folder; empty when it can be read.
inline std::vector<std::string> plan_errors(const std::string& text, const std::string& file = plan_file()) {
  std::vector<input::Warning> warnings;
  try {
    shop::read_shop_plan_text(text, file, plan_scenarios(), warnings);
  } catch (const input::ScenarioErrors& errors) {
    std::vector<std::string> messages = errors.messages();
    const std::string folder = file.substr(0, file.rfind('/') + 1);
    for (std::string& message : messages)
      for (auto at = message.find(folder); at != std::string::npos; at = message.find(folder))
        message.erase(at, folder.size());
    return messages;
  }
  return {};
}

}  // namespace dullcast::testing
