#include "tools/dullcast/forecast_report.hpp"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <map>
#include <sstream>

#include "engine/forecast/economics.hpp"

namespace dullcast {
namespace {

/// A rule of the scenario in words.
std::string rule_words(const std::string& rule, const ReworkRules& rules) {
  if (rule == "worn_height" && rules.worn_height) {
    return "a cutter worn " + show(*rules.worn_height, shown::length, ShownUnits::both);
  }
  if (rule == "outer_dull_grade" && rules.outer_dull_grade) {
    return "outer dull grade " + show_number(*rules.outer_dull_grade, 2);
  }
  if (rule == "heat_damage" && rules.heat_damage) return "heat damage " + show_number(*rules.heat_damage, 2);
  if (rule == "speed_share_of_new" && rules.speed_share_of_new) {
    return "drilling at " + show_number(100.0 * *rules.speed_share_of_new, 2) + " % of a new bit's speed";
  }
  return rule;
}

std::string cutter_words(const std::vector<int>& cutters) {
  if (cutters.empty()) return "no one cutter";
  std::string words = cutters.size() == 1 ? "cutter " : "cutters ";
  for (std::size_t k = 0; k < cutters.size(); ++k) {
    if (k > 0) words += k + 1 == cutters.size() ? " and " : ", ";
    words += std::to_string(cutters[k] + 1);
  }
  return words;
}

/// A library name as a person says it: "hard_sandstone" is hard sandstone.
std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// Tenths of an eighth: finer than anyone can read off a bit.
std::string grade_words(const std::optional<double>& grade) {
  if (!grade) return "no cutters there";
  std::ostringstream words;
  words << std::fixed << std::setprecision(1) << *grade;
  return words.str();
}

std::string holes_words(int holes) {
  return std::to_string(holes) + (holes == 1 ? " hole" : " holes");
}

std::string watts(double power) {
  return show_number(power) + " W";
}

class Report {
 public:
  Report(std::ostream& out, const Forecast& forecast, ShownUnits units, bool band)
      : out_(out), forecast_(forecast), scenario_(forecast.central_scenario), units_(units), band_(band) {}

  void print() {
    heading();
    rework();
    margin();
    hottest();
    layers();
    money();
    cautions();
  }

 private:
  void line(const std::string& label, const std::string& text) {
    out_ << "  " << std::left << std::setw(17) << label << text << "\n";
  }

  void heading() {
    const BitRecord& bit = scenario_.bit;
    out_ << scenario_.title << "\n";
    out_ << "  " << bit.name << "\n  " << bit.layout.count() << " cutters of "
         << show(2.0 * bit.layout.shape.radius, shown::length, ShownUnits::si) << " by "
         << show(bit.layout.shape.length, shown::length, ShownUnits::si) << " on " << bit.layout.blades
         << " blades, " << spoken(bit.grade.name) << " grade, " << bit.body.name << " body\n";
    const double worn = bit.starting_wear.maxCoeff();
    if (worn > 0.0)
      out_ << "  starts used: most worn cutter " << show(worn, shown::length, ShownUnits::both) << "\n";
    out_ << "  Estimates. "
         << (forecast_.calibrated
                 ? "Calibrated to one inspected bit: abrasion coefficient times " +
                       show_number(forecast_.coefficient_factor, 3) + "."
                 : std::string("Uncalibrated: no inspected bit has been given (calibrate_from)."))
         << "\n\n";
  }

  static bool stopped(const RunOutcome& run) {
    return !run.rework_due && run.ended_by == EndedBy::stopped_drilling;
  }

  static std::string hole_of(const RunOutcome& run) {
    if (run.rework_due) return std::to_string(run.rework_due->hole + 1);
    if (stopped(run)) return "stops in " + std::to_string(run.holes_finished + 1);
    return "not in " + std::to_string(run.holes_finished);
  }

  std::string footage_of(const RunOutcome& run) const {
    if (run.rework_due) return show(run.rework_due->footage, shown::depth, units_);
    return (stopped(run) ? "" : "over ") + show(run.footage, shown::depth, units_);
  }

  static std::string hours_of(const RunOutcome& run) {
    if (run.rework_due) return show(run.rework_due->rotating_time, shown::hours, ShownUnits::si);
    return (stopped(run) ? "" : "over ") + show(run.rotating_time, shown::hours, ShownUnits::si);
  }

  void rework() {
    const RunOutcome& run = forecast_.central;
    out_ << "Rework\n";
    if (run.rework_due) {
      const Milestone& due = *run.rework_due;
      line("due", "in hole " + std::to_string(due.hole + 1) + " of " +
                      std::to_string(scenario_.repeat.holes) + " at " +
                      show(due.depth, shown::depth, units_) + ", after " +
                      show(due.footage, shown::depth, units_, 4) + " and " +
                      show(due.rotating_time, shown::hours, ShownUnits::si) + " rotating");
      line("by the rule", rule_words(due.rule, scenario_.rules) + ": " + cutter_words(due.cutters));
      line("dull grade then", "inner " + grade_words(due.condition.inner_dull_grade) + ", outer " +
                                  grade_words(due.condition.outer_dull_grade));
    } else if (run.ended_by == EndedBy::stopped_drilling) {
      line("not reached", "the bit stopped drilling in hole " + std::to_string(run.holes_finished + 1) +
                              " after " + show(run.footage, shown::depth, units_) +
                              ": too little weight for this rock or this wear");
    } else {
      line("not due", "in " + holes_words(run.holes_finished) + ", " +
                          show(run.footage, shown::depth, units_, 4) + " and " +
                          show(run.rotating_time, shown::hours, ShownUnits::si) + " rotating");
      line("dull grade then", "inner " + grade_words(run.end.inner_dull_grade) + ", outer " +
                                  grade_words(run.end.outer_dull_grade));
    }
    if (run.beyond_repair) {
      line("beyond repair", "in hole " + std::to_string(run.beyond_repair->hole + 1) + ", after " +
                                show(run.beyond_repair->footage, shown::depth, units_, 4) + ": " +
                                cutter_words(run.beyond_repair->cutters) + " worn near the blade");
    } else {
      line("beyond repair", "not reached in " + show(run.footage, shown::depth, units_, 4));
    }
    if (band_) band_table();
    out_ << "\n";
  }

  void row(const std::string& label, const std::string& low, const std::string& central,
           const std::string& high) {
    const int width = units_ == ShownUnits::both ? 26 : 16;
    out_ << "  " << std::left << std::setw(17) << label << std::setw(width) << low << std::setw(width)
         << central << high << "\n";
  }

  void band_table() {
    const RunOutcome &low = forecast_.harsh, &central = forecast_.central, &high = forecast_.kind;
    row(forecast_.calibrated ? "calibrated" : "uncalibrated", "low", "central", "high");
    row("  due in hole", hole_of(low), hole_of(central), hole_of(high));
    row("  footage", footage_of(low), footage_of(central), footage_of(high));
    row("  rotating", hours_of(low), hours_of(central), hours_of(high));
    std::string drivers;
    for (std::size_t k = 0; k < std::min<std::size_t>(3, forecast_.effects.size()); ++k) {
      const NumberEffect& effect = forecast_.effects[k];
      if (effect.share < 0.02) break;
      if (!drivers.empty()) drivers += ", ";
      drivers += spoken(effect.name) + " " + show_number(std::round(100.0 * effect.share), 2) + " %";
    }
    out_ << "  About one case in ten is worse than low, one in ten better than high.\n";
    if (!drivers.empty()) line("band due to", drivers);
  }

  void margin() {
    const RunOutcome& run = forecast_.central;
    out_ << (run.rework_due ? "Each rule's allowance used when rework fell due\n"
                            : "Each rule's allowance used at the end\n");
    for (const RuleUse& use : run.rules) {
      line(std::to_string(std::lround(100.0 * use.used)) + " %", rule_words(use.rule, scenario_.rules));
    }
    out_ << "\n";
  }

  void hottest() {
    const HottestMoment& hot = forecast_.central.hottest;
    if (!(hot.temperature > 0.0)) return;
    const Layer& layer = scenario_.column.layers[static_cast<std::size_t>(hot.layer)];
    out_ << "Hottest moment of the whole run\n";
    std::string ends;
    if (band_) {
      ends = " (low end " + show(forecast_.harsh.hottest.temperature, shown::temperature, units_) +
             ", high end " + show(forecast_.kind.hottest.temperature, shown::temperature, units_) + ")";
    }
    line("temperature", show(hot.temperature, shown::temperature, units_) + ends);
    line("where", "cutter " + std::to_string(hot.cutter + 1) + ", hole " + std::to_string(hot.hole + 1) +
                      " at " + show(hot.depth, shown::depth, units_) + " in " + spoken(layer.rock.name));
    line("because", hot.face_heat > hot.flat_heat ? "chips rub the face: " + watts(hot.face_heat) +
                                                        " on it, " + watts(hot.flat_heat) + " on the flat"
                                                  : "the flat rubs: " + watts(hot.flat_heat) + " on it, " +
                                                        watts(hot.face_heat) + " from chips");
    const Shown& flow = scenario_.fluid.kind == FluidKind::gas ? shown::gas_flow : shown::flow;
    line("at", show(hot.weight, shown::weight, units_) + ", " +
                   show(hot.rotary_speed, shown::rotary_speed, ShownUnits::si) + ", " +
                   show(hot.flow, flow, units_) + ", fluid at " +
                   show(hot.fluid_temperature, shown::temperature, units_));
    out_ << "\n";
  }

  void layers() {
    out_ << "First hole, layer by layer\n";
    const int width = units_ == ShownUnits::both ? 24 : 14;
    std::size_t longest = 15;
    for (const Layer& layer : scenario_.column.layers) longest = std::max(longest, layer.rock.name.size());
    const int names = static_cast<int>(longest) + 2;
    out_ << "  " << std::left << std::setw(names) << "rock" << std::setw(width) << "to" << std::setw(width)
         << "progress" << std::setw(width) << "weight" << std::setw(width) << "hottest flat"
         << "greatest wear\n";
    for (const LayerPassage& p : forecast_.central.passages) {
      if (p.hole != 0) break;
      std::ostringstream wear;
      wear << std::fixed << std::setprecision(1) << 1e6 * p.greatest_wear_gain << " um";
      out_ << "  " << std::setw(names) << spoken(p.rock) << std::setw(width)
           << show(p.bottom, shown::depth, units_) << std::setw(width)
           << show(p.mean_rate_of_penetration, shown::progress, units_) << std::setw(width)
           << show(p.mean_weight, shown::weight, units_) << std::setw(width)
           << show(p.hottest_flat, shown::temperature, units_) << wear.str() << "\n";
    }
    out_ << "\n";
  }

  void money() {
    const std::optional<RunCost> cost = run_cost(scenario_, forecast_.central);
    if (!cost) return;
    const std::string& currency = scenario_.costs.currency;
    out_ << "Cost and energy, " << (forecast_.central.rework_due ? "to rework" : "to the end of the run")
         << "\n";
    std::string range;
    if (band_) {
      const std::optional<RunCost> low = run_cost(scenario_, forecast_.harsh),
                                   high = run_cost(scenario_, forecast_.kind);
      if (low && high) {
        range = "  (low life " + show_money_per_length(low->per_metre, currency, ShownUnits::field) +
                ", high life " + show_money_per_length(high->per_metre, currency, ShownUnits::field) + ")";
      }
    }
    line("bit and rig", cost->per_metre > 0.0
                            ? show_money_per_length(cost->per_metre, currency, ShownUnits::both) + range
                            : std::string("no cost of bit or rig given (costs)"));
    std::string energy = show(cost->energy, shown::energy, units_) + " at the bit";
    if (cost->fuel > 0.0) energy += ", " + show(cost->fuel, shown::volume, units_) + " of fuel";
    line("energy", energy);
    if (cost->waiting && *cost->waiting > 0.0) {
      line("left too long", "a rework is " + show_money(scenario_.costs.rework, currency) +
                                "; past repair a new bit costs " + show_money(*cost->waiting, currency, 4) +
                                " more");
    }
    out_ << "\n";
  }

  void cautions() {
    out_ << "Estimates from a model; the bit in the hand decides. Inspect it whenever it is out of the hole. "
            "Keep\n"
            "clear of rotating iron and lines under pressure, lift heavy iron with gear, and leave brazing "
            "and\n"
            "grinding of cutters and carbide (heat, fumes, dust) to people equipped and trained for it. "
            "Local codes\n"
            "and a licensed driller come first.\n";
  }

  std::ostream& out_;
  const Forecast& forecast_;
  const Scenario& scenario_;
  ShownUnits units_;
  bool band_;
};

}  // namespace

void print_forecast(std::ostream& out, const Forecast& forecast, ShownUnits units, bool band) {
  Report(out, forecast, units, band).print();
}

}  // namespace dullcast
