#pragma once

#include <optional>
#include <string>
#include <vector>

/// What a forecast says beside its central run and its band, kept so that it can be told again without
/// running.
namespace dullcast::storage {

/// One uncertain number's share in the band.
struct NumberShare {
  std::string name;
  double share = 0.0;  // 1, of the variance of ln(wear)
};

/// One layer drilled on when the pump stops; NaN where something did not come.
struct LayerSurvival {
  int layer = 0;
  double depth = 0.0;         // m, where the pump stops
  double weight = 0.0;        // N
  double rotary_speed = 0.0;  // rev/s
  std::string end;            // what goes first, one word
  double time = 0.0;          // s from the pump's stop to that, or for how long it was followed
  int cutter = -1;            // which, -1 for none
  std::optional<double> standstill, film, dry;  // s from the pump's stop
  double steady_temperature = 0.0;              // K, hottest flat just before
  double hottest = 0.0;                         // K, hottest flat since
  double after_10 = 0.0, after_30 = 0.0, after_60 = 0.0,
         after_120 = 0.0;  // K, hottest flat so many seconds later
};

struct ForecastNotes {
  int calibrated = 0;                        // 1: inspected bits were learnt from
  std::optional<double> learned_from;        // 1, how many; none in files of before format 1.5
  double coefficient_factor = 1.0;           // 1, by which they moved the abrasion coefficient
  std::optional<double> cutting_wear_share;  // 1, as one told it; of before format 1.5
  double inspection_share = 0.0;             // 1, of the band's variance: what reading it left open; likewise
  int draws_failed = 0;                      // draws of chance that could not be run
  int draws_without_rework = 0;              // draws in which rework did not fall due
  std::string first_failed_draw;             // what it said
  std::vector<NumberShare> shares;           // greatest first
  std::vector<LayerSurvival> survival;       // one a layer
};

}  // namespace dullcast::storage
