#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/simulation/outcome.hpp"

namespace dullcast::page_engine {

/// The numbers of a run with all their digits, SI, in the names of RunOutcome's members: what two programs
/// that ran one scenario are compared by. Not of the bookkeeping of the stepping, nor of rows that show.
///   footage, rotating_time, elapsed_time, energy, holes_finished, ended_by
///   end, rework_due, beyond_repair   {hole, depth, footage, rotating_time, elapsed_time, rule, worn_height,
///            heat_damage, chip_hazard, eroded, blade_wear, pad_wear, gauge_loss}; null where it did not come
///   hottest  {temperature, cutter, hole, depth}
///   holes    [{depth_reached, rotating_time, hottest_flat, greatest_worn_height}]
///   passages [{bottom, rotating_time, mean_weight, mean_torque, energy, hottest_flat, chip_hazard}]
///   events   [{kind, time, depth, cutter}]
/// Cutters and holes count from 0 here. Numbers that are not finite are null.
nlohmann::json run_numbers(const simulation::RunOutcome& outcome);

}  // namespace dullcast::page_engine
