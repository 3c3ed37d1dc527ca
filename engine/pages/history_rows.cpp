#include "engine/pages/history_rows.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

#include "engine/pages/json_parts.hpp"
#include "models/condition/cost.hpp"

namespace dullcast::pages {
namespace {

using simulation::HistoryRow;

struct Single {
  const char* name;
  double HistoryRow::*value;
};
constexpr std::array singles{
    Single{"time", &HistoryRow::time},
    Single{"rotating_time", &HistoryRow::rotating_time},
    Single{"depth", &HistoryRow::depth},
    Single{"footage", &HistoryRow::footage},
    Single{"weight", &HistoryRow::weight},
    Single{"rotary_speed", &HistoryRow::rotary_speed},
    Single{"flow", &HistoryRow::flow},
    Single{"depth_of_cut", &HistoryRow::depth_of_cut},
    Single{"rate_of_penetration", &HistoryRow::rate_of_penetration},
    Single{"torque", &HistoryRow::torque},
    Single{"blade_weight", &HistoryRow::blade_weight},
    Single{"energy", &HistoryRow::energy},
    Single{"fluid_temperature", &HistoryRow::fluid_temperature},
    Single{"body_temperature", &HistoryRow::body_temperature},
    Single{"rock_temperature", &HistoryRow::rock_temperature},
    Single{"water_share", &HistoryRow::water_share},
    Single{"solids_fraction", &HistoryRow::solids_fraction},
    Single{"plug_height", &HistoryRow::plug_height},
    Single{"flow_past_bit", &HistoryRow::flow_past_bit},
    Single{"bit_pressure_drop", &HistoryRow::bit_pressure_drop},
    Single{"lateral_force", &HistoryRow::lateral_force},
    Single{"eroded", &HistoryRow::eroded},
    Single{"blade_wear", &HistoryRow::blade_wear},
    Single{"pad_wear", &HistoryRow::pad_wear},
    Single{"gauge_loss", &HistoryRow::gauge_loss},
};

struct PerCutter {
  const char* name;
  Eigen::ArrayXd HistoryRow::*value;
};
constexpr std::array per_cutter{
    PerCutter{"flat_temperature", &HistoryRow::flat_temperature},
    PerCutter{"worn_height", &HistoryRow::worn_height},
    PerCutter{"flat_area", &HistoryRow::flat_area},
    PerCutter{"heat_damage", &HistoryRow::heat_damage},
    PerCutter{"chip_hazard", &HistoryRow::chip_hazard},
    PerCutter{"film", &HistoryRow::film},
};

double greatest(const Eigen::ArrayXd& values) {
  return values.size() > 0 ? values.maxCoeff() : 0.0;
}

/// What tracks show of a row: the values whose peaks have to stay.
std::array<double, 7> tracked(const HistoryRow& row) {
  return {row.rate_of_penetration,
          row.weight,
          row.torque,
          row.flow,
          greatest(row.flat_temperature),
          row.flat_temperature.size() > 0 ? row.flat_temperature.minCoeff() : 0.0,
          greatest(row.worn_height)};
}

void keep_extremes(const std::vector<HistoryRow>& rows, std::size_t from, std::size_t to,
                   std::vector<bool>& kept) {
  std::array<std::size_t, 7> least{}, most{};
  least.fill(from);
  most.fill(from);
  const std::array<double, 7> first = tracked(rows[from]);
  std::array<double, 7> low = first, high = first;
  for (std::size_t k = from + 1; k < to; ++k) {
    const std::array<double, 7> here = tracked(rows[k]);
    for (std::size_t m = 0; m < here.size(); ++m) {
      if (here[m] < low[m]) low[m] = here[m], least[m] = k;
      if (here[m] > high[m]) high[m] = here[m], most[m] = k;
    }
  }
  for (std::size_t m = 0; m < low.size(); ++m) kept[least[m]] = kept[most[m]] = true;
}

}  // namespace

std::vector<std::size_t> rows_to_show(const simulation::History& history, std::size_t most) {
  const std::vector<HistoryRow>& rows = history.rows;
  std::vector<bool> kept(rows.size(), rows.size() <= most);
  if (rows.size() > most) {
    std::size_t ends = 0;
    for (std::size_t k = 0; k < rows.size(); ++k) {
      const bool begins = k == 0 || rows[k].hole != rows[k - 1].hole || rows[k].layer != rows[k - 1].layer;
      const bool ends_here =
          k + 1 == rows.size() || rows[k].hole != rows[k + 1].hole || rows[k].layer != rows[k + 1].layer;
      if (begins || ends_here) kept[k] = true, ++ends;
    }
    // A stretch keeps at most two rows a value.
    const std::size_t left = most > ends ? most - ends : 0, stretches = std::max<std::size_t>(left / 14, 1);
    for (std::size_t s = 0; s < stretches; ++s) {
      const std::size_t from = rows.size() * s / stretches, to = rows.size() * (s + 1) / stretches;
      if (from < to) keep_extremes(rows, from, to, kept);
    }
  }
  std::vector<std::size_t> shown;
  for (std::size_t k = 0; k < kept.size(); ++k) {
    if (kept[k]) shown.push_back(k);
  }
  return shown;
}

bool has_costs(const scenario::Scenario& scenario) {
  return scenario.costs.bit > 0.0 || scenario.costs.rig_per_second > 0.0;
}

double cost_per_metre_at(const scenario::Scenario& scenario, const HistoryRow& row) {
  if (!(row.footage > 0.0)) return std::numeric_limits<double>::quiet_NaN();
  // As run_cost has it: the trip out of the hole that the bit is in comes on top.
  const double elapsed = row.time + scenario.repeat.trip_time;
  return condition::cost_per_length(scenario.costs.bit, scenario.costs.rig_per_second, row.rotating_time,
                                    std::max(0.0, elapsed - row.rotating_time), 0.0, row.footage);
}

nlohmann::json columns_of(const scenario::Scenario& scenario, const simulation::History& history,
                          const std::vector<std::size_t>& shown) {
  nlohmann::json columns = nlohmann::json::object();
  const auto column = [&](const char* name, const auto& value_of) {
    nlohmann::json values = nlohmann::json::array();
    for (const std::size_t k : shown) values.push_back(value_of(history.rows[k]));
    columns[name] = std::move(values);
  };
  column("hole", [](const HistoryRow& row) { return row.hole + 1; });
  column("layer", [](const HistoryRow& row) { return row.layer + 1; });
  for (const Single& one : singles)
    column(one.name, [&](const HistoryRow& row) { return number(row.*one.value); });
  if (has_costs(scenario))
    column("cost_per_metre", [&](const HistoryRow& row) { return number(cost_per_metre_at(scenario, row)); });
  nlohmann::json cutters = nlohmann::json::object();
  for (const PerCutter& one : per_cutter) {
    nlohmann::json all = nlohmann::json::array();
    for (Eigen::Index i = 0; i < scenario.bit.layout.count(); ++i) {
      nlohmann::json values = nlohmann::json::array();
      for (const std::size_t k : shown) {
        const Eigen::ArrayXd& row = history.rows[k].*one.value;
        values.push_back(i < row.size() ? number(row(i)) : nlohmann::json(nullptr));
      }
      all.push_back(std::move(values));
    }
    cutters[one.name] = std::move(all);
  }
  columns["cutters"] = std::move(cutters);
  return columns;
}

}  // namespace dullcast::pages
