#include "engine/storage/fields.hpp"

namespace dullcast::storage::result_format {

Fields<ForecastNotes> notes_fields() {
  using R = ForecastNotes;
  return since_minor<R>(
      5,
      since_minor<R>(
          4, {},
          {
              {"calibrated", "1", "1: inspected bits were learnt from", &R::calibrated},
              {"coefficient_factor", "1", "factor by which they moved the abrasion coefficient",
               &R::coefficient_factor},
              {"cutting_wear_share", "1",
               "of before 1.5: wear by cutting over wear by rubbing, as one bit told; else NaN",
               &R::cutting_wear_share},
              {"inspection_share", "1",
               "of before 1.5: share of the band's variance that reading one bit left open; else 0",
               &R::inspection_share},
              {"draws_failed", "1", "draws of chance that could not be run", &R::draws_failed},
              {"draws_without_rework", "1", "draws of chance in which rework did not fall due",
               &R::draws_without_rework},
              {"first_failed_draw", "", "what the first of those that could not be run said",
               &R::first_failed_draw},
          }),
      {{"learned_from", "1", "inspected bits that the numbers rest on; NaN: none", &R::learned_from}});
}

Fields<NumberShare> share_fields() {
  using R = NumberShare;
  return {
      {"number", "", "uncertain number", &R::name},
      {"share", "1", "its share of the variance of the logarithm of wear", &R::share},
  };
}

Fields<LayerSurvival> survival_fields() {
  using R = LayerSurvival;
  return {
      {"layer", "1", "layer, counted from 1 at the surface", &R::layer, counted_from_one},
      {"depth", "m", "depth where the pump stops", &R::depth},
      {"weight", "N", "weight on bit", &R::weight},
      {"rotary_speed", "revolution s-1", "rotary speed", &R::rotary_speed},
      {"end", "",
       "what goes first: table_ruined, table_lost, cutter_lost, blade_sheared, outlives, does_not_drill or "
       "fails_with_flow",
       &R::end},
      {"time", "s", "time from the pump's stop to that, or for how long it was followed", &R::time},
      {"cutter", "1", "cutter that goes first, counted from 1; 0 for none", &R::cutter, counted_from_one},
      {"standstill", "s", "time until the bit no longer drills; NaN: it drills on", &R::standstill},
      {"film", "s", "time until a film of steam covers a cutter; NaN: none does", &R::film},
      {"dry", "s", "time until the last water at the bottom is gone; NaN: it stays", &R::dry},
      {"steady_temperature", "K", "hottest flat just before the pump stops", &R::steady_temperature},
      {"hottest", "K", "hottest flat since", &R::hottest},
      {"after_10", "K", "hottest flat 10 s after the pump's stop; NaN: the end came first", &R::after_10},
      {"after_30", "K", "hottest flat 30 s after; NaN: the end came first", &R::after_30},
      {"after_60", "K", "hottest flat 60 s after; NaN: the end came first", &R::after_60},
      {"after_120", "K", "hottest flat 120 s after; NaN: the end came first", &R::after_120},
  };
}

}  // namespace dullcast::storage::result_format
