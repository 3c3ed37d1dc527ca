#include "tools/commands/passages_csv.hpp"

#include <cstdio>
#include <ostream>

#include "engine/base/plain_text.hpp"

namespace dullcast::commands {

void write_passages_csv(std::ostream& out, const simulation::RunOutcome& outcome) {
  out << "hole,layer,rock,top_m,bottom_m,rotating_time_s,rate_of_penetration_m_per_s,weight_N,torque_N_m,"
         "energy_J,"
         "hottest_flat_K,hottest_cutter,greatest_wear_gain_m,greatest_wear_cutter,expected_chips,"
         "greatest_chip_probability,greatest_chip_cutter,greatest_load_share,mean_solids_fraction,lifted_"
         "share,"
         "balling_risk,time_in_film_s\n";
  for (const simulation::LayerPassage& p : outcome.passages) {
    char text[600];
    std::snprintf(
        text, sizeof text,
        ",%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%d,%.9g,%d,%.9g,%.9g,%d,%.9g,%.9g,%.9g,%.9g,%.9g\n", p.top,
        p.bottom, p.rotating_time, p.mean_rate_of_penetration, p.mean_weight, p.mean_torque, p.energy,
        p.hottest_flat, p.hottest_cutter + 1, p.greatest_wear_gain, p.greatest_wear_cutter + 1, p.chip_hazard,
        p.greatest_chip_probability, p.greatest_chip_cutter + 1, p.greatest_load_share,
        p.mean_solids_fraction, p.lifted_share, p.balling_risk, p.time_in_film);
    out << p.hole + 1 << "," << p.layer + 1 << "," << base::csv_cell(p.rock) << text;
  }
}

}  // namespace dullcast::commands
