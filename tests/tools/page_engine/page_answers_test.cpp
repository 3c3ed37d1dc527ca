#include "tools/page_engine/page_answers.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "engine/analysis/forecast.hpp"
#include "engine/input/scenario_reader.hpp"

namespace dullcast::page_engine {
namespace {

using nlohmann::json;

const std::string scenarios = std::string(DULLCAST_SOURCE_DIR) + "/scenarios/";

std::string text_of(const std::string& file) {
  std::ifstream in(file);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

json library_request() {
  json files;
  for (const auto& entry : std::filesystem::directory_iterator(scenarios + "library"))
    files[entry.path().filename().string()] = text_of(entry.path().string());
  return {{"ask", "open"}, {"library", {{"folder", "library"}, {"files", files}}}};
}

struct OpenedAnswers : PageAnswers {
  OpenedAnswers() { EXPECT_EQ(answer(library_request().dump()), R"({"ok":true})"); }
  json ask(const json& request) { return json::parse(answer(request.dump())); }
};

TEST(PageAnswers, ARunIsTheProgramsRunToTheLastBit) {
  OpenedAnswers page;
  const json said = page.ask({{"ask", "run"},
                              {"exact", true},
                              {"file", "one_shallow_well.yaml"},
                              {"scenario", text_of(scenarios + "one_shallow_well.yaml")},
                              {"sets", {"plan.0.rotary_speed=77 rpm"}}});
  ASSERT_TRUE(said["ok"]) << said;
  std::vector<input::Warning> warnings;
  const scenario::Scenario scenario = input::read_scenario(
      scenarios + "one_shallow_well.yaml", scenarios + "library", {"plan.0.rotary_speed=77 rpm"}, warnings);
  analysis::ForecastOptions options;
  options.band = false;
  const simulation::RunOutcome outcome = analysis::forecast(scenario, options).central;
  const json& numbers = said["numbers"];
  EXPECT_EQ(numbers["footage"].get<double>(), outcome.footage);
  EXPECT_EQ(numbers["energy"].get<double>(), outcome.energy);
  EXPECT_EQ(numbers["hottest"]["temperature"].get<double>(), outcome.hottest.temperature);
  ASSERT_EQ(numbers["end"]["worn_height"].size(), static_cast<std::size_t>(outcome.end.worn_height.size()));
  for (Eigen::Index i = 0; i < outcome.end.worn_height.size(); ++i) {
    EXPECT_EQ(numbers["end"]["worn_height"][static_cast<std::size_t>(i)].get<double>(),
              outcome.end.worn_height(i));
  }
  EXPECT_EQ(numbers["events"].size(), outcome.events.size());
  EXPECT_EQ(said["view"]["rows"]["depth"].size(), said["view"]["rows"]["torque"].size());
}

TEST(PageAnswers, WhatCannotBeDoneIsSaidWithItsPlace) {
  PageAnswers shut;
  EXPECT_FALSE(json::parse(shut.answer(R"({"ask": "check", "scenario": ""})"))["ok"]);
  OpenedAnswers page;
  for (const char* wrong :
       {"", "{", "[]", R"({"ask": 3})", R"({"ask": "check"})",
        R"({"ask": "run", "scenario": "a: [", "sets": 5})", R"({"ask": "sing", "scenario": "name: x"})",
        R"({"ask": "run", "scenario": "", "units": "cubits"})"})
    EXPECT_FALSE(json::parse(page.answer(wrong))["ok"]) << wrong;
  const json said =
      page.ask({{"ask", "check"},
                {"file", "mine.yaml"},
                {"scenario", text_of(scenarios + "one_shallow_well.yaml") + "\nunheard_of: 1\n"}});
  ASSERT_FALSE(said["ok"]);
  EXPECT_EQ(said["problems"][0].get<std::string>().find("mine.yaml:"), 0u) << said;
  EXPECT_NE(said["problems"][0].get<std::string>().find("unheard_of"), std::string::npos);
}

TEST(PageAnswers, AChangedTextKeepsItsComments) {
  OpenedAnswers page;
  const json said = page.ask({{"ask", "change"}, {"scenario", "a: 1  # one\nb: 2\n"}, {"sets", {"b=3"}}});
  EXPECT_EQ(said["text"], "a: 1  # one\nb: 3\n");
}

}  // namespace
}  // namespace dullcast::page_engine
