#include "tools/commands/forecast_report.hpp"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <sstream>

#include "engine/pages/due_words.hpp"
#include "tools/commands/band_report.hpp"
#include "tools/commands/damage_report.hpp"
#include "tools/commands/ground_report.hpp"
#include "tools/commands/money_report.hpp"
#include "tools/commands/report_words.hpp"
#include "tools/commands/start_words.hpp"

namespace dullcast::commands {
namespace {

std::string watts(double power) {
  return base::show_number(power) + " W";
}

/// "16 mm by 13 mm".
std::string size_in_words(const geometry::CutterShape& shape) {
  return base::show(2.0 * shape.radius, base::shown::length, base::ShownUnits::si) + " by " +
         base::show(shape.length, base::shown::length, base::ShownUnits::si);
}

/// One line for a bit with one kind of cutter, one more for each kind of a bit with several.
void print_cutters(std::ostream& out, const scenario::BitRecord& bit) {
  const bool mixed = bit.kinds.size() > 1;
  const scenario::CutterKind& usual = bit.kinds.front();
  out << "  " << bit.layout.count() << " cutters"
      << (mixed ? "" : " of " + size_in_words(bit.layout.shapes.front())) << " on " << bit.layout.blades
      << " blades, " << (mixed ? "" : spoken(usual.grade.name) + " grade, ") << spoken(bit.lot.name)
      << " lot, " << bit.body.name << " body\n";
  for (std::size_t k = 0; mixed && k < bit.kinds.size(); ++k) {
    const auto count = (bit.layout.kind == static_cast<int>(k)).count();
    if (count > 0)
      out << "    " << count << " of " << size_in_words(bit.layout.shapes[k]) << ", "
          << spoken(bit.kinds[k].grade.name) << " grade: " << spoken(bit.kinds[k].name) << "\n";
  }
}

class Report {
 public:
  Report(std::ostream& out, const analysis::Forecast& forecast,
         const std::vector<analysis::Survival>& survival, base::ShownUnits units, bool band)
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
    const scenario::BitRecord& bit = scenario_.bit;
    out_ << scenario_.title << "\n";
    out_ << "  " << bit.name << "\n";
    print_cutters(out_, bit);
    if (const std::string words = start_words(bit); !words.empty())
      out_ << "  starts used: " << words << "\n";
    out_ << "  Estimates. "
         << (forecast_.learned_from > 0
                 ? "Learnt from " + std::to_string(forecast_.learned_from) +
                       (forecast_.learned_from == 1 ? " inspected bit" : " inspected bits") +
                       ": abrasion coefficient times " + base::show_number(forecast_.coefficient_factor, 3) +
                       "."
                 : std::string(
                       "Uncalibrated: no inspected bit has been learnt from (learned, calibrate_from)."))
         << "\n";
    if (scenario_.random_events.drawn)
      out_ << "  Chips and failures are drawn by chance, seed " << scenario_.random_events.seed
           << "; another seed, another bit.\n";
    out_ << "\n";
  }

  void rework() {
    const simulation::RunOutcome& run = forecast_.central;
    out_ << "Rework\n";
    if (run.rework_due) {
      const simulation::Milestone& due = *run.rework_due;
      line("due", "in hole " + std::to_string(due.hole + 1) + " of " +
                      std::to_string(scenario_.repeat.holes) + " at " +
                      base::show(due.depth, base::shown::depth, units_) + ", after " +
                      base::show(due.footage, base::shown::depth, units_, 4) + " and " +
                      base::show(due.rotating_time, base::shown::hours, base::ShownUnits::si) + " rotating");
      line("by the rule", rule_words(due.rule, scenario_.rules) + ": " + cutter_words(due.cutters));
      line("dull grade then", "inner " + grade_words(due.condition.inner_dull_grade) + ", outer " +
                                  grade_words(due.condition.outer_dull_grade));
    } else if (run.ended_by == simulation::EndedBy::blade_sheared) {
      line("not reached", "a blade sheared off in hole " + std::to_string(run.holes_finished + 1) +
                              " after " + base::show(run.footage, base::shown::depth, units_));
    } else if (run.ended_by == simulation::EndedBy::stopped_drilling) {
      line("not reached", "the bit stopped drilling in hole " + std::to_string(run.holes_finished + 1) +
                              " after " + base::show(run.footage, base::shown::depth, units_) +
                              ": too little weight for this rock or this wear");
    } else {
      line("not due", "in " + holes_words(run.holes_finished) + ", " +
                          base::show(run.footage, base::shown::depth, units_, 4) + " and " +
                          base::show(run.rotating_time, base::shown::hours, base::ShownUnits::si) +
                          " rotating");
      line("dull grade then", "inner " + grade_words(run.end.inner_dull_grade) + ", outer " +
                                  grade_words(run.end.outer_dull_grade));
    }
    if (run.beyond_repair) {
      line("beyond repair", "in hole " + std::to_string(run.beyond_repair->hole + 1) + ", after " +
                                base::show(run.beyond_repair->footage, base::shown::depth, units_, 4) + ": " +
                                pages::beyond_words(*run.beyond_repair));
    } else {
      line("beyond repair", "not reached in " + base::show(run.footage, base::shown::depth, units_, 4));
    }
    if (band_) print_band(sheet_, forecast_);
    out_ << "\n";
  }

  void margin() {
    const simulation::RunOutcome& run = forecast_.central;
    out_ << (run.rework_due ? "Each rule's allowance used when rework fell due\n"
                            : "Each rule's allowance used at the end\n");
    for (const simulation::RuleUse& use : run.rules) {
      line(std::to_string(std::lround(100.0 * use.used)) + " %", rule_words(use.rule, scenario_.rules));
    }
    out_ << "\n";
  }

  void hottest() {
    const simulation::HottestMoment& hot = forecast_.central.hottest;
    if (!(hot.temperature > 0.0)) return;
    const scenario::Layer& layer = scenario_.column.layers[static_cast<std::size_t>(hot.layer)];
    out_ << "Hottest moment of the whole run\n";
    line("temperature", base::show(hot.temperature, base::shown::temperature, units_) +
                            (band_ ? (forecast_.middle ? " in this draw" : " in the central case") : ""));
    line("where", "cutter " + std::to_string(hot.cutter + 1) + ", hole " + std::to_string(hot.hole + 1) +
                      " at " + base::show(hot.depth, base::shown::depth, units_) + " in " +
                      spoken(layer.rock.name));
    line("because", hot.face_heat > hot.flat_heat ? "chips rub the face: " + watts(hot.face_heat) +
                                                        " on it, " + watts(hot.flat_heat) + " on the flat"
                                                  : "the flat rubs: " + watts(hot.flat_heat) + " on it, " +
                                                        watts(hot.face_heat) + " from chips");
    const base::Shown& flow =
        scenario_.fluid.kind == scenario::FluidKind::gas ? base::shown::gas_flow : base::shown::flow;
    line("at", base::show(hot.weight, base::shown::weight, units_) + ", " +
                   base::show(hot.rotary_speed, base::shown::rotary_speed, base::ShownUnits::si) + ", " +
                   base::show(hot.flow, flow, units_) + ", fluid at " +
                   base::show(hot.fluid_temperature, base::shown::temperature, units_));
    if (band_) line("other cases", hottest_ends_words(forecast_, units_));
    out_ << "\n";
  }

  void layers() {
    out_ << "First hole, layer by layer\n";
    const int width = units_ == base::ShownUnits::both ? 24 : 14;
    std::size_t longest = 15;
    for (const scenario::Layer& layer : scenario_.column.layers)
      longest = std::max(longest, layer.rock.name.size());
    const int names = static_cast<int>(longest) + 2;
    out_ << "  " << std::left << std::setw(names) << "rock" << std::setw(width) << "to" << std::setw(width)
         << "progress" << std::setw(width) << "weight" << std::setw(width) << "hottest flat"
         << "greatest wear\n";
    for (const simulation::LayerPassage& p : forecast_.central.passages) {
      if (p.hole != 0) break;
      std::ostringstream wear;
      wear << std::fixed << std::setprecision(1) << 1e6 * p.greatest_wear_gain << " um";
      out_ << "  " << std::setw(names) << spoken(p.rock) << std::setw(width)
           << base::show(p.bottom, base::shown::depth, units_) << std::setw(width)
           << base::show(p.mean_rate_of_penetration, base::shown::progress, units_) << std::setw(width)
           << base::show(p.mean_weight, base::shown::weight, units_) << std::setw(width)
           << base::show(p.hottest_flat, base::shown::temperature, units_) << wear.str() << "\n";
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
  const analysis::Forecast& forecast_;
  const std::vector<analysis::Survival>& survival_;
  const scenario::Scenario& scenario_;
  base::ShownUnits units_;
  bool band_;
};

}  // namespace

void print_forecast(std::ostream& out, const analysis::Forecast& forecast,
                    const std::vector<analysis::Survival>& survival, base::ShownUnits units, bool band) {
  Report(out, forecast, survival, units, band).print();
}

}  // namespace dullcast::commands
