#include "tools/dullcast/forecast_report.hpp"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <sstream>

#include "tools/dullcast/damage_report.hpp"
#include "tools/dullcast/ground_report.hpp"
#include "tools/dullcast/money_report.hpp"
#include "tools/dullcast/report_words.hpp"

namespace dullcast {
namespace {

std::string watts(double power) {
  return show_number(power) + " W";
}

class Report {
 public:
  Report(std::ostream& out, const Forecast& forecast, const std::vector<Survival>& survival, ShownUnits units,
         bool band)
      : out_(out),
        sheet_{out, units},
        forecast_(forecast),
        survival_(survival),
        scenario_(forecast.central_scenario),
        units_(units),
        band_(band) {}

  void print() {
    heading();
    rework();
    margin();
    hottest();
    layers();
    print_suitability(sheet_, scenario_, forecast_.central);
    print_chip_risk(sheet_, scenario_, forecast_.central);
    print_survival(sheet_, scenario_, survival_, forecast_.central.rework_due.has_value());
    print_damage(sheet_, scenario_, forecast_.central);
    print_money(sheet_, forecast_, band_);
    print_other_method(sheet_, forecast_);
    cautions();
  }

 private:
  void line(const std::string& label, const std::string& text) { sheet_.line(label, text); }

  void heading() {
    const BitRecord& bit = scenario_.bit;
    out_ << scenario_.title << "\n";
    out_ << "  " << bit.name << "\n  " << bit.layout.count() << " cutters of "
         << show(2.0 * bit.layout.shape.radius, shown::length, ShownUnits::si) << " by "
         << show(bit.layout.shape.length, shown::length, ShownUnits::si) << " on " << bit.layout.blades
         << " blades, " << spoken(bit.grade.name) << " grade, " << spoken(bit.lot.name) << " lot, "
         << bit.body.name << " body\n";
    const double worn = bit.starting_wear.maxCoeff();
    if (worn > 0.0)
      out_ << "  starts used: most worn cutter " << show(worn, shown::length, ShownUnits::both) << "\n";
    out_ << "  Estimates. "
         << (forecast_.calibrated
                 ? "Calibrated to one inspected bit: abrasion coefficient times " +
                       show_number(forecast_.coefficient_factor, 3) + "."
                 : std::string("Uncalibrated: no inspected bit has been given (calibrate_from)."))
         << "\n";
    if (scenario_.chance.drawn)
      out_ << "  Chips and failures are drawn by chance, seed " << scenario_.chance.seed
           << "; another seed, another bit.\n";
    out_ << "\n";
  }

  static bool stopped(const RunOutcome& run) {
    return !run.rework_due &&
           (run.ended_by == EndedBy::stopped_drilling || run.ended_by == EndedBy::blade_sheared);
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
    } else if (run.ended_by == EndedBy::blade_sheared) {
      line("not reached", "a blade sheared off in hole " + std::to_string(run.holes_finished + 1) +
                              " after " + show(run.footage, shown::depth, units_));
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
                                beyond_words(*run.beyond_repair));
    } else {
      line("beyond repair", "not reached in " + show(run.footage, shown::depth, units_, 4));
    }
    if (band_) band_table();
    out_ << "\n";
  }

  static std::string beyond_words(const Milestone& beyond) {
    if (beyond.rule == "blade_sheared") return "a blade sheared off";
    if (beyond.cutters.empty()) return "pockets eroded";
    return cutter_words(beyond.cutters) + " worn near the blade";
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
  Sheet sheet_;
  const Forecast& forecast_;
  const std::vector<Survival>& survival_;
  const Scenario& scenario_;
  ShownUnits units_;
  bool band_;
};

}  // namespace

void print_forecast(std::ostream& out, const Forecast& forecast, const std::vector<Survival>& survival,
                    ShownUnits units, bool band) {
  Report(out, forecast, survival, units, band).print();
}

}  // namespace dullcast
