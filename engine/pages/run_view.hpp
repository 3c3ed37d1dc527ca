#pragma once

#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "engine/analysis/number_effects.hpp"
#include "engine/base/display.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::pages {

/// The version of what run_view gives: a new member raises the second number, a changed one the first.
inline constexpr int run_view_major = 1, run_view_minor = 1;

struct RunViewOptions {
  std::string name;     // what people call the run: its file
  std::string made_by;  // program, version and commit
  base::ShownUnits units = base::ShownUnits::field;
  int learned_from = 0;                         // inspected bits that the numbers rest on; 0: uncalibrated
  std::vector<analysis::NumberEffect> effects;  // what the band is due to; empty where nobody asked
  std::size_t most_rows = 3000;                 // of the history
};

/// A run as pages show it, one JSON object. Pure; throws what suitability and the geometry throw.
///
/// Numbers are SI (m, s, N, K, rad, rev/s, m3/s, J, money), six significant figures, null where they are not
/// known or without limit. Holes, layers, cutters, blades and upsets count from 1. SENTENCE is
/// {"field": text, "si": text}, the same in either system of units; TEXT needs no units.
///
///   format      [major, minor]
///   name, title, made_by   TEXT
///   units       "field", "si" or "both": how the page begins
///   calibrated  true where inspected bits were learnt from; learned_from: how many
///   gas         true where the drilling fluid is a gas, whose flow is of free air
///   bit         {name, diameter, blades, body, lot, blade_thickness, port_diameter,
///     cutters   [{number, blade, zone ("cone", "nose", "shoulder", "gauge"), radius, depth (of the tip,
///     along
///               the axis, positive downward), azimuth (clockwise seen from above, as the bit turns),
///               profile_angle (of the outward normal: 0 down, pi/2 at the wall), back_rake, side_rake,
///               exposure, diameter, length, table_thickness, bevel_width, bevel_angle, leach_depth, kind,
///               grade, starting_wear, starts_lost, starts_without_table, starts_chipped}]
///     profile   {radius: [...], depth: [...]} of the lowest unworn edge; depth null where no cutter reaches}
///   layers      [{number, top, bottom, rock, pattern (rock_pattern), note, hard_on_cutters, strength,
///               abrasivity, stone_share, stickiness, excess_pressure}]
///   water_level
///   intervals   of the plan: [{from, to, weight (at its middle), rotary_speed, flow, mist_water,
///   feed_limit}] fluid       {name, gas, inlet_temperature} weight_limit upsets      [{number, from, hole
///   (null: every one), lasts}] holes       [{number, depth_reached, rotating_time, elapsed_time,
///   hottest_flat, worn_height,
///               inner_grade, outer_grade, first_row, last_row (into rows, from 0; null without rows)}]
///   holes_planned
///   rows        what the recorder kept, as columns of equal length (rows_to_show says which were left out):
///     hole, layer, time, rotating_time, depth, footage, weight, rotary_speed, flow, depth_of_cut,
///     rate_of_penetration, torque, blade_weight, energy, fluid_temperature, body_temperature,
///     rock_temperature, water_share, solids_fraction, plug_height, flow_past_bit, bit_pressure_drop,
///     lateral_force, eroded, blade_wear, pad_wear, gauge_loss, and where money is stated cost_per_metre (of
///     all metres so far, were the bit pulled for good at the row);
///     cutters   of each of flat_temperature, worn_height (in the face), flat_area, heat_damage, chip_hazard,
///               film: one array a cutter, of one value a row
///   rows_recorded   how many there were
///   events      [{kind (event_name), time, hole, depth, footage, cutter (null: no one cutter), words TEXT}]
///   passages    [{hole, layer, rock, top, bottom, rotating_time, rate_of_penetration, weight, torque,
///   energy,
///               hottest_flat, hottest_cutter, wear_gain, wear_cutter, chip_hazard, chip_probability,
///               chip_cutter, load_share, solids_fraction, lifted_share, balling_risk, time_in_film}]
///   rework_due, beyond_repair   null, or {hole, depth, footage, rotating_time, elapsed_time, rule,
///               rule_words TEXT, cutters, words SENTENCE, worn_height (one a cutter), inner_grade,
///               outer_grade}
///   due_words   TEXT, also where rework does not fall due: "hole 14 of 40", "not in 40 holes"
///   ended_by    ended_by_name
///   rules       [{rule, words TEXT, allowance (as the scenario states it), used}] when rework fell due,
///   otherwise at the end; 1 is due band        [] or low, central and high life: [{end, due, hole, footage,
///   rotating_time, hottest_flat,
///               words TEXT}]; draws: of chance, 0 where only numbers move
///   band_due_to [{name, share}] the greatest first
///   hottest     null, or {temperature, cutter, hole, layer, depth, rock, weight, rotary_speed, flow, words
///               SENTENCE}
///   verdict     {words SENTENCE, grade ("go", "with_care", "wrong_bit", "not_reached"), layers: [{layer,
///               grade, words TEXT, why: [SENTENCE]}]}
///   first_to_do, inspect   TEXT, may be empty
///   costs       null, or {currency, footage, per_metre, rig, bit, fuel (m3), words SENTENCE,
///               holes: [{number, per_metre}] of all metres up to that hole's end}
///   repair      {kind ("none", "replace_cutters", "rebuild_pockets", "scrap"), cutters, pockets, cost (null
///               without prices), words TEXT}: what the shop does when the bit comes in where the run stopped
///   marks       [{name: "faster_wear" or "ruin", temperature, words SENTENCE}], from the model's central
///   numbers estimates, cautions   [TEXT]
///
/// A wear flat is the cut of a cylinder by a plane (models/geometry/wear_flat.hpp): at worn height u, behind
/// the face by x along the cutter's axis (0 <= x <= length, u - x tan(back_rake) > 0) it is
/// 2 sqrt(h (diameter - h)) wide, h = u - x tan(back_rake), and x/cos(back_rake) along the travel; its area
/// is rows.cutters.flat_area.
nlohmann::json run_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                        const std::vector<simulation::LifeEnd>& band, const RunViewOptions& options);

}  // namespace dullcast::pages
