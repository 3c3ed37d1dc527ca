#include "tools/page_engine/run_numbers.hpp"

#include <nlohmann/json.hpp>

namespace dullcast::page_engine {
namespace {

using nlohmann::json;

json all_of(const Eigen::ArrayXd& values) {
  return std::vector<double>(values.begin(), values.end());
}

json condition(const simulation::BitCondition& bit) {
  return {{"worn_height", all_of(bit.worn_height)},
          {"heat_damage", all_of(bit.heat_damage)},
          {"chip_hazard", all_of(bit.chip_hazard)},
          {"eroded", bit.eroded},
          {"blade_wear", bit.blade_wear},
          {"pad_wear", bit.pad_wear},
          {"gauge_loss", bit.gauge_loss}};
}

json milestone(const std::optional<simulation::Milestone>& at) {
  if (!at) return nullptr;
  json result = condition(at->condition);
  result["hole"] = at->hole;
  result["depth"] = at->depth;
  result["footage"] = at->footage;
  result["rotating_time"] = at->rotating_time;
  result["elapsed_time"] = at->elapsed_time;
  result["rule"] = at->rule;
  return result;
}

}  // namespace

json run_numbers(const simulation::RunOutcome& outcome) {
  json result = {{"footage", outcome.footage},
                 {"rotating_time", outcome.rotating_time},
                 {"elapsed_time", outcome.elapsed_time},
                 {"energy", outcome.energy},
                 {"holes_finished", outcome.holes_finished},
                 {"ended_by", simulation::ended_by_name(outcome.ended_by)},
                 {"end", condition(outcome.end)},
                 {"rework_due", milestone(outcome.rework_due)},
                 {"beyond_repair", milestone(outcome.beyond_repair)},
                 {"hottest",
                  {{"temperature", outcome.hottest.temperature},
                   {"cutter", outcome.hottest.cutter},
                   {"hole", outcome.hottest.hole},
                   {"depth", outcome.hottest.depth}}},
                 {"holes", json::array()},
                 {"passages", json::array()},
                 {"events", json::array()}};
  for (const simulation::HoleSummary& hole : outcome.holes) {
    result["holes"].push_back({{"depth_reached", hole.depth_reached},
                               {"rotating_time", hole.rotating_time},
                               {"hottest_flat", hole.hottest_flat},
                               {"greatest_worn_height", hole.greatest_worn_height}});
  }
  for (const simulation::LayerPassage& passage : outcome.passages) {
    result["passages"].push_back({{"bottom", passage.bottom},
                                  {"rotating_time", passage.rotating_time},
                                  {"mean_weight", passage.mean_weight},
                                  {"mean_torque", passage.mean_torque},
                                  {"energy", passage.energy},
                                  {"hottest_flat", passage.hottest_flat},
                                  {"chip_hazard", passage.chip_hazard}});
  }
  for (const simulation::Event& event : outcome.events) {
    result["events"].push_back({{"kind", simulation::event_name(event.kind)},
                                {"time", event.time},
                                {"depth", event.depth},
                                {"cutter", event.cutter}});
  }
  return result;
}

}  // namespace dullcast::page_engine
