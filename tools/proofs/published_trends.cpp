#include <algorithm>
#include <cmath>

#include "models/wear/abrasion.hpp"
#include "models/wear/heat_damage.hpp"
#include "tools/proofs/measurements.hpp"
#include "tools/proofs/rule_setting.hpp"
#include "tools/proofs/trend_setting.hpp"

namespace dullcast::proofs {
namespace {

using samples::steady_at_depth_of_cut;
using samples::SteadyBit;
using samples::SteadySetting;

constexpr double degree = pi / 180.0;
const std::string single_cutter = "J. Energy Resour. Technol. 116, 1994, 268";
const std::string limestone_cutter = "Int. J. Engineering, article 118867";
const std::string drag_bit = "Detournay & Defourny, IJRMMS 29(1), 1992";
const std::string hot_wear = "Glowka & Stone, SPE J. 25(2), 1985";

double rise(const SteadyBit& bit, const SteadySetting& setting) {
  return bit.flat_temperature.maxCoeff() - setting.inlet_temperature;
}

/// What follows cutting speed at one depth of cut.
void follow_speed(Section& section, std::vector<Curve>& curves, const SteadySetting& start,
                  const std::string& name, double speed_at_start) {
  std::vector<double> rises, per_watt, torque, weight;
  Curve hot{"speed", "Rise of the flat with cutting speed", "cutting speed, m/s", "K", name, false, true, {}};
  Curve per{"per_watt", "Rise per watt of friction heat", "cutting speed, m/s", "K/W", name, false, true, {}};
  for (const double times : {0.5, 1.0, 1.5, 2.0, 3.0}) {
    SteadySetting s = start;
    s.rotary_speed *= times;
    const SteadyBit bit = samples::steady_at_depth_of_cut(s, 1e-3);
    rises.push_back(rise(bit, s));
    per_watt.push_back(bit.flat_per_watt(bit.hottest));
    torque.push_back(bit.torque);
    weight.push_back(bit.weight);
    hot.points.emplace_back(times * speed_at_start, rises.back());
    per.points.emplace_back(times * speed_at_start, per_watt.back());
  }
  section.lines.push_back(
      trend_line("rise of the flat as speed grows sixfold, " + name, single_cutter, true, rises, "%.0f K"));
  hot.holds = section.lines.back().holds;
  section.lines.push_back(trend_line("its rise per watt of friction heat as speed grows sixfold, " + name,
                                     single_cutter, true, per_watt, "%.3f K/W"));
  per.holds = section.lines.back().holds;
  const auto drift = [](const std::vector<double>& v) {
    return *std::max_element(v.begin(), v.end()) / *std::min_element(v.begin(), v.end()) - 1.0;
  };
  section.lines.push_back(departure_line("tangential and axial force independent of speed, " + name,
                                         single_cutter, 0.0, std::max(drift(torque), drift(weight))));
  curves.push_back(hot);
  curves.push_back(per);
}

/// What follows depth of cut at one speed.
void follow_depth(Section& section, std::vector<Curve>& curves, const SteadySetting& s,
                  const std::string& name) {
  std::vector<double> rises, torques;
  Curve hot{"depth", "Rise of the flat with depth of cut", "depth of cut, mm", "K", name, false, true, {}};
  const std::vector<double> depths = published_depths();
  for (const double d : depths) {
    const SteadyBit bit = samples::steady_at_depth_of_cut(s, d);
    rises.push_back(rise(bit, s));
    torques.push_back(bit.torque);
    hot.points.emplace_back(1e3 * d, rises.back());
  }
  section.lines.push_back(trend_line("rise of the flat, depth of cut 0.5 to 1.5 mm, " + name,
                                     limestone_cutter, true, rises, "%.0f K"));
  hot.holds = section.lines.back().holds;
  curves.push_back(hot);
  double off = 0.0;
  for (std::size_t i = 0; i < depths.size(); ++i) {
    const double along = (depths[i] - depths.front()) / (depths.back() - depths.front());
    off = std::max(off, std::abs(torques[i] / std::lerp(torques.front(), torques.back(), along) - 1.0));
  }
  section.lines.push_back(departure_line("tangential force linear in depth of cut, off the line, " + name,
                                         single_cutter, 0.03, off));
}

/// Colder back rake and weaker rock.
void compare_rake_and_rock(Section& section, std::vector<Curve>& curves) {
  const std::pair<const char*, SteadySetting> cases[] = {
      {"back rake 15 deg, 60 MPa", lone_cutter()},
      {"back rake 5 deg, 60 MPa", lone_cutter(5.0 * degree)},
      {"back rake 15 deg, 110 MPa", lone_cutter(15.0 * degree, 110e6)}};
  std::vector<std::vector<double>> rises;
  const std::size_t first_curve = curves.size();
  for (const auto& [name, setting] : cases) {
    rises.emplace_back();
    Curve hot{"rake_rock", "Rise by back rake and rock", "depth of cut, mm", "K", name, false, true, {}};
    for (const double d : published_depths()) {
      rises.back().push_back(rise(samples::steady_at_depth_of_cut(setting, d), setting));
      hot.points.emplace_back(1e3 * d, rises.back().back());
    }
    curves.push_back(hot);
  }
  const auto compare = [&](std::size_t other, const char* what) {
    double least = 1e300, most = 0.0;
    for (std::size_t i = 0; i < rises[0].size(); ++i) {
      const double ratio = rises[other][i] / rises[0][i];
      least = std::min(least, ratio);
      most = std::max(most, ratio);
    }
    section.lines.push_back({what, limestone_cutter, "hotter",
                             number_words("x %.2f", least) + number_words(" to x %.2f", most), "-",
                             Standing::predicted, least > 1.0});
    curves[first_curve + other].holds = section.lines.back().holds;
  };
  compare(1, "rise at 5 deg of back rake over that at 15 deg");
  compare(2, "rise in the stronger of two limestones (110 over 60 MPa)");
}

void wear_with_depth(Section& section, std::vector<Curve>& curves) {
  SteadySetting s = whole_bit();
  s.rock.cerchar_abrasivity = 2.0;
  std::vector<double> wear;
  Curve curve{"wear",
              "Diamond worn per mass of rock cut",
              "depth of cut, mm",
              "of that at 0.5 mm",
              "bit of 16 cutters",
              false,
              true,
              {}};
  for (const double d : published_depths()) {
    wear.push_back(wear_per_mass(s, d));
    curve.points.emplace_back(1e3 * d, wear.back() / wear.front());
  }
  section.lines.push_back(trend_line("wear per mass of rock, depth of cut 0.5 to 1.5 mm", single_cutter,
                                     false, wear, "%.2e m3/kg"));
  curve.holds = section.lines.back().holds;
  curves.push_back(curve);
}

/// Lowest temperature where `rate` reaches a value, by halving; rate must not fall.
double temperature_where(const std::function<double(double)>& rate, double value) {
  double low = celsius_zero, high = celsius_zero + 2000.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (rate(middle) < value ? low : high) = middle;
  }
  return high;
}

void thresholds(Section& section, std::vector<Curve>& curves, const scenario::ModelNumbers& numbers) {
  const wear::AbrasionLaw law{numbers.abrasion_coefficient.central, numbers.abrasivity_exponent.central,
                              numbers.carbide_wear_ratio.central, numbers.acceleration_temperature.central,
                              numbers.acceleration_scale.central};
  const double begins =
      temperature_where([&](double T) { return wear::heat_acceleration(law, T); }, 1.01) - celsius_zero;
  section.lines.push_back(number_line("temperature from which diamond wears faster (by 1 %)", hot_wear,
                                      "%.0f C", 350.0, begins, 2.0, Standing::input));
  Curve faster{
      "acceleration", "Wear per force and distance", "flat, C", "of the cold rate", "model", false, true, {}};
  for (double celsius = 100.0; celsius <= 700.0; celsius += 25.0)
    faster.points.emplace_back(celsius, wear::heat_acceleration(law, celsius + celsius_zero));
  curves.push_back(faster);
  const wear::HeatDamageLaw damage{numbers.damage_seconds_at_750.central,
                                   numbers.damage_seconds_at_700.central, numbers.leached_limit.central};
  const auto ruined_in = [&](double seconds) {
    return temperature_where([&](double T) { return wear::cobalt_damage_rate(damage, T); }, 1.0 / seconds) -
           celsius_zero;
  };
  Line ruin =
      number_line("temperature that ruins cobalt-bearing diamond (700 to 750 C) in an assumed 3 minutes",
                  hot_wear, "%.0f C", 725.0, ruined_in(180.0), 25.0, Standing::input);
  section.lines.push_back(ruin);
  const double leached =
      temperature_where([&](double T) { return wear::leached_damage_rate(damage, T); }, 1.0 / 60.0) -
      celsius_zero;
  section.lines.push_back(number_line("temperature that ruins leached diamond in an assumed minute", hot_wear,
                                      "%.0f C", 1200.0, leached, 10.0, Standing::input));
}

Section drag_bits(std::vector<Curve>& curves) {
  Section section;
  section.title = "2b Drag bits: the line of specific energy over drilling strength";
  double off = 0.0;
  Curve drilled{"line",
                "Specific energy over drilling strength",
                "S = W/(R d), MPa",
                "E = 2T/(R² d), MPa",
                "worn bits",
                false,
                true,
                {}};
  Curve line{"line", drilled.title, drilled.x_label, drilled.y_label, "published line", true, true, {}};
  for (const double worn : {0.5e-3, 0.8e-3, 1.2e-3, 2e-3})
    for (const double d : {5e-5, 2e-4, 5e-4, 1e-3}) {
      const DrillingResponse r = drilling_response(even_bit(), worn, d);
      off = std::max(off, std::abs(r.energy / line_energy(r.strength) - 1.0));
      drilled.points.emplace_back(1e-6 * r.strength, 1e-6 * r.energy);
    }
  std::sort(drilled.points.begin(), drilled.points.end());
  for (const double S : {drilled.points.front().first, drilled.points.back().first})
    line.points.emplace_back(S, 1e-6 * line_energy(1e6 * S));
  section.lines.push_back(departure_line("worn bits, contact spread evenly: off E = (1 - mu zeta) eps + mu S",
                                         drag_bit, 0.02, off, Standing::input));
  drilled.holds = section.lines.back().holds;
  curves.push_back(drilled);
  curves.push_back(line);
  const DrillingResponse sharper = drilling_response(even_bit(), 0.5e-3, 1e-3);
  const DrillingResponse dull = drilling_response(even_bit(), 2e-3, 1e-3);
  section.lines.push_back(
      number_line("slope of E over S from a little worn to a dull bit: friction of the flat", drag_bit,
                  "%.3f", line_friction, (dull.energy - sharper.energy) / (dull.strength - sharper.strength),
                  0.03 * line_friction, Standing::input));
  std::vector<double> energies;
  for (const double d : {1e-5, 1e-4, 1e-3, 1e-2, 5e-2})
    energies.push_back(1e-6 * drilling_response(even_bit(), 0.5e-3, d).energy);
  section.lines.push_back(trend_line("specific energy as depth of cut grows, worn 0.5 mm", drag_bit, false,
                                     energies, "%.0f MPa"));
  for (const double worn : {0.0, 0.5e-3})
    for (const scenario::RockRecord& rock : {sandstone(), hard_sandstone()}) {
      scenario::Scenario s = in_rock(rock, 1.0);
      s.bit.starting_wear.setConstant(worn);
      const simulation::RunOutcome outcome = simulation::run(s);
      const simulation::LayerPassage& passage = outcome.passages[0];
      const double R = s.bit.layout.bit_radius, area = pi * R * R;
      const double specific_energy =
          passage.mean_weight / area +
          passage.mean_torque * two_pi * s.plan[0].rotary_speed / (area * passage.mean_rate_of_penetration);
      const double share = rock.unconfined_strength.central / specific_energy;
      section.lines.push_back({"strength over mechanical specific energy, " + rock.name +
                                   number_words(", flats %.1f mm", 1e3 * worn),
                               "Teale 1965; Pessier & Fear, SPE 24584, 1992", "0.30 to 0.40 (field)",
                               number_words("%.2f", share), number_words("%+.2f from 0.35", share - 0.35),
                               Standing::predicted, share >= 0.30 && share <= 0.40});
    }
  return section;
}

Section chips(std::vector<Curve>& curves) {
  Section section;
  section.title = "2c Chipping by bevel angle";
  section.notes = {
      "Back rake of the published rates is not stated; the bits of the library have 10 to 25 deg."};
  const std::pair<double, double> published[] = {{12.0, 0.22}, {16.0, 0.14}, {20.0, 0.09}};
  for (const double rake : {10.0, 15.0, 20.0})
    for (const auto& [bevel, stated] : published)
      section.lines.push_back(
          number_line(number_words("chip rate over an unbevelled edge's, bevel %.0f deg", bevel) +
                          number_words(", back rake %.0f deg, Weibull modulus 10", rake),
                      "values from memory, no source found", "%.3f", stated,
                      chip_rate_ratio(unworn_edge(bevel, rake), unworn_edge(0.0, rake)), 0.005));
  const std::string title = "Chip rate by bevel angle", x = "bevel, deg", y = "of an unbevelled edge's";
  for (const double rake : {10.0, 15.0, 20.0}) {
    Curve curve{"bevel", title, x, y, number_words("back rake %.0f deg", rake), false, rake == 10.0, {}};
    for (double bevel = 0.0; bevel <= 24.0; bevel += 2.0)
      curve.points.emplace_back(bevel, chip_rate_ratio(unworn_edge(bevel, rake), unworn_edge(0.0, rake)));
    curves.push_back(curve);
  }
  Curve stated{"bevel", title, x, y, "stated", true, true, {}};
  for (const auto& point : published) stated.points.push_back(point);
  curves.push_back(stated);
  return section;
}

}  // namespace

std::vector<Section> published_trends(const scenario::ModelNumbers& numbers, std::vector<Curve>& curves) {
  Section cutters;
  cutters.title = "2a Cutters: temperature, force and wear";
  follow_speed(cutters, curves, lone_cutter(), "lone cutter", 1.0);
  follow_speed(cutters, curves, whole_bit(), "bit of 16 cutters",
               two_pi * 1.5 * whole_bit().bit.radius.maxCoeff());
  follow_depth(cutters, curves, lone_cutter(), "lone cutter");
  follow_depth(cutters, curves, whole_bit(), "bit of 16 cutters");
  compare_rake_and_rock(cutters, curves);
  wear_with_depth(cutters, curves);
  thresholds(cutters, curves, numbers);
  return {cutters, drag_bits(curves), chips(curves)};
}

}  // namespace dullcast::proofs
