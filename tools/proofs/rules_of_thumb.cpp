#include <algorithm>
#include <string>

#include "models/common/constants.hpp"
#include "tools/proofs/measurements.hpp"
#include "tools/proofs/rule_setting.hpp"
#include "tools/proofs/trend_setting.hpp"
#include "tools/samples/invented_scenario.hpp"

namespace dullcast::proofs {
namespace {

const std::string trade = "common practice";
const std::string threshold = "common practice; 350 C: Glowka & Stone, SPE J. 25(2), 1985";

double celsius(double T) {
  return T - celsius_zero;
}
double hottest(const simulation::RunOutcome& outcome) {
  return celsius(outcome.hottest.temperature);
}

/// "under 350 C" and its like.
Line limit_line(const std::string& what, const std::string& source, bool under, const char* format,
                double limit, double model) {
  return {what,
          source,
          (under ? "under " : "over ") + number_words(format, limit),
          number_words(format, model),
          number_words("x %.3g", model / limit),
          Standing::predicted,
          under ? model < limit : model > limit};
}

/// `first` has to exceed `second` by the factor `least`.
Line more_line(const std::string& what, const std::string& published, double first, double second,
               double least, const char* format) {
  const double ratio = first / second;
  return {what,
          trade,
          published,
          number_words(format, first) + " against " + number_words(format, second),
          number_words("x %.3g", ratio),
          Standing::predicted,
          ratio > least};
}

void weight_per_inch(Section& section) {
  for (const scenario::RockRecord& rock : {sandstone(), hard_sandstone()})
    section.lines.push_back(limit_line("1,000 lbf per inch and 85 rpm keep new flats cool: " + rock.name,
                                       threshold, true, "%.0f C", 350.0,
                                       hottest(simulation::run(in_rock(rock)))));
  scenario::Scenario worn = in_rock(hard_sandstone(), 0.5);
  worn.bit.starting_wear.setConstant(1e-3);
  section.lines.push_back(limit_line("the same with flats of 1 mm: hard sandstone", threshold, true, "%.0f C",
                                     350.0, hottest(simulation::run(worn))));
  const struct {
    const char* name;
    double strength, youngs_modulus, weight, rpm;
  } beyond[] = {{"hard sandstone, twice the weight, 160 rpm", 120e6, 36e9, 70e3, 160.0},
                {"granite, twice the weight, 140 rpm", 180e6, 60e9, 70e3, 140.0}};
  for (const auto& look : beyond) {
    const auto bit =
        samples::steady_under_weight(ordinary_bit(look.strength, look.youngs_modulus, look.rpm), look.weight);
    section.lines.push_back(limit_line("beyond the rule, flats past the threshold: " + std::string(look.name),
                                       threshold, false, "%.0f C", 350.0,
                                       celsius(bit.flat_temperature.maxCoeff())));
  }
}

void slower_in_harder_rock(Section& section, std::vector<Curve>& curves) {
  for (const scenario::RockRecord& rock : {hard_sandstone(), granite()}) {
    std::vector<double> temperatures, chips;
    Curve hot{"rpm", "Hottest flat with rotary speed", "rev/min", "C", rock.name, false, true, {}};
    for (const double rpm : {60.0, 80.0, 100.0, 140.0}) {
      scenario::Scenario s = in_rock(rock, 1.0);
      s.bit.starting_wear.setConstant(0.5e-3);
      s.plan[0].rotary_speed = rpm / 60.0;
      const simulation::RunOutcome outcome = simulation::run(s);
      temperatures.push_back(hottest(outcome));
      chips.push_back(chips_per_metre(outcome));
      hot.points.emplace_back(rpm, temperatures.back());
    }
    section.lines.push_back(trend_line("slower runs cooler, 60 to 140 rpm, flats 0.5 mm: " + rock.name, trade,
                                       true, temperatures, "%.0f C"));
    hot.holds = section.lines.back().holds;
    curves.push_back(hot);
    section.lines.push_back(trend_line("slower chips less, 60 to 140 rpm, flats 0.5 mm: " + rock.name, trade,
                                       true, chips, "%.3g /m", 0.1));
  }
  for (const double worn : {0.0, 0.5e-3, 1e-3}) {
    double wear[2], flat[2];
    int k = 0;
    for (const double rpm : {60.0, 140.0}) {
      scenario::Scenario s = in_rock(hard_sandstone());
      s.bit.starting_wear.setConstant(worn);
      s.plan[0].rotary_speed = rpm / 60.0;
      const simulation::RunOutcome outcome = simulation::run(s);
      wear[k] = 1e6 * wear_per_metre(outcome);
      flat[k++] = hottest(outcome);
    }
    section.lines.push_back(more_line(
        "slower spares wear, hard sandstone, 140 over 60 rpm, flats " + number_words("%.1f mm", 1e3 * worn) +
            number_words(" (%.0f", flat[1]) + number_words(" and %.0f C)", flat[0]),
        "faster wears more", wear[1], wear[0], 1.02, "%.3g um/m"));
  }
}

void ten_gallons(Section& section) {
  scenario::Scenario s = in_rock(sandstone());
  const simulation::RunOutcome usual = simulation::run(s);
  s.plan[0].flow = 10.0 * samples::gallon_per_minute;
  const simulation::RunOutcome least = simulation::run(s);
  section.lines.push_back(
      limit_line("10 gal/min cool a new bit in sandstone", threshold, true, "%.0f C", 350.0, hottest(least)));
  section.lines.push_back(more_line("10 gal/min clean at full weight: keep 90 % of the rate of 60 gal/min",
                                    "enough to drill", 3600.0 * rate(least), 3600.0 * rate(usual), 0.9,
                                    "%.1f m/h"));
  section.lines.push_back(
      {"the same: slots stay open", trade, "enough to drill",
       number_words("%.2f of the slots are solids", least.passages[0].mean_solids_fraction),
       number_words("x %.3g of 60 gal/min",
                    least.passages[0].mean_solids_fraction / usual.passages[0].mean_solids_fraction),
       Standing::predicted,
       std::none_of(least.events.begin(), least.events.end(), [](const simulation::Event& event) {
         return event.kind == simulation::EventKind::slots_pack;
       })});
}

void outer_cutters(Section& section) {
  const scenario::Scenario s = in_rock(hard_sandstone(), 4.0);
  const simulation::RunOutcome outcome = simulation::run(s);
  const geometry::BitLayout& bit = s.bit.layout;
  double inner = 0.0, outer = 0.0;
  int inner_count = 0, outer_count = 0;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const bool outside = bit.radius(i) > 2.0 / 3.0 * bit.bit_radius;
    (outside ? outer : inner) += outcome.end.worn_height(i);
    ++(outside ? outer_count : inner_count);
  }
  section.lines.push_back(more_line("outer cutters wear first: mean of outer third over the rest",
                                    "outer wear more", 1e6 * outer / outer_count, 1e6 * inner / inner_count,
                                    1.0, "%.3g um"));
  const Eigen::ArrayXd by_travel = outcome.end.worn_height / bit.radius;
  section.lines.push_back(
      {"because they travel furthest: wear over radius is one number, spread of it", trade,
       "one number (5 %)",
       number_words("%.1f %%", 100.0 * (1.0 - by_travel.minCoeff() / by_travel.maxCoeff())), "-",
       Standing::predicted, by_travel.minCoeff() > 0.95 * by_travel.maxCoeff()});
}

void hard_ground(Section& section) {
  const simulation::RunOutcome kind = simulation::run(in_rock(sandstone(), 2.0));
  for (const scenario::RockRecord& rock : {gravel(), quartzite(), granite()}) {
    const simulation::RunOutcome outcome = simulation::run(in_rock(rock, 2.0));
    section.lines.push_back(more_line(rock.name + " chips cutters, against sandstone", "chips more",
                                      chips_per_metre(outcome), chips_per_metre(kind), 10.0, "%.3g /m"));
    section.lines.push_back(more_line(rock.name + " burns cutters, against sandstone", "hotter",
                                      hottest(outcome), hottest(kind), 1.1, "%.0f C"));
  }
  for (const double worn : {0.0, 0.5e-3, 1e-3, 2e-3}) {
    scenario::Scenario s = in_rock(granite(), 1.0);
    s.bit.starting_wear.setConstant(worn);
    const simulation::RunOutcome outcome = simulation::run(s);
    Line line =
        limit_line(number_words("granite is survivable when cooled, 1 m, flats %.1f mm", 1e3 * worn),
                   "common practice; 700 C: Glowka & Stone 1985", true, "%.0f C", 700.0, hottest(outcome));
    const bool whole = outcome.end.lost.sum() + outcome.end.table_gone.sum() == 0 &&
                       outcome.footage > 0.999 && outcome.end.heat_damage.maxCoeff() < 1e-3;
    line.model += whole ? ", drilled, no table ruined" : ", not drilled unharmed";
    line.holds = line.holds && whole;
    section.lines.push_back(line);
  }
}

void bevel_and_rake(Section& section) {
  for (const scenario::RockRecord& rock : {sandstone(), hard_sandstone()}) {
    std::vector<double> chips, rates, fed_chips;
    for (const double angle : {0.0, 12.0, 16.0, 20.0, 45.0}) {
      scenario::Scenario s = in_rock(rock, 2.0);
      s.bit.layout = bevelled(angle);
      s.numbers.abrasion_coefficient = samples::exactly(1e-22);  // new edges, which the rule is about
      const simulation::RunOutcome weighted = simulation::run(s);
      chips.push_back(chips_per_metre(weighted));
      rates.push_back(3600.0 * rate(weighted));
      s.plan[0].feed_limit = 2.0 / 3600.0;
      fed_chips.push_back(chips_per_metre(simulation::run(s)));
    }
    section.lines.push_back(trend_line("chips as the bevel rises from 0 to 45 deg, one weight: " + rock.name,
                                       trade, false, chips, "%.3g /m"));
    section.lines.push_back(trend_line("chips as the bevel rises from 0 to 45 deg, 2 m/h: " + rock.name,
                                       trade, false, fed_chips, "%.3g /m"));
    section.lines.push_back(trend_line("rate as the bevel rises from 0 to 45 deg, one weight: " + rock.name,
                                       trade, false, rates, "%.1f m/h"));
  }
  for (const scenario::RockRecord& rock : {sandstone(), hard_sandstone()}) {
    std::vector<double> rates;
    for (const double rake : {10.0, 15.0, 20.0, 25.0}) {
      scenario::Scenario s = in_rock(rock, 2.0);
      s.bit.layout = raked(rake);
      rates.push_back(3600.0 * rate(simulation::run(s)));
    }
    section.lines.push_back(trend_line("rate as back rake rises from 10 to 25 deg: " + rock.name, trade,
                                       false, rates, "%.1f m/h"));
  }
  for (const double worn : {0.0, 0.5e-3}) {
    std::vector<double> chips;
    for (const double rake : {10.0, 15.0, 20.0, 25.0}) {
      scenario::Scenario s = in_rock(hard_sandstone(), 2.0);
      s.bit.layout = raked(rake);
      s.bit.starting_wear.setConstant(worn);
      s.plan[0].feed_limit = 2.0 / 3600.0;
      chips.push_back(chips_per_metre(simulation::run(s)));
    }
    section.lines.push_back(trend_line("chips as back rake rises from 10 to 25 deg, 2 m/h, hard sandstone, " +
                                           std::string(worn > 0.0 ? "flats 0.5 mm" : "new bevelled edge"),
                                       trade, false, chips, "%.3g /m"));
  }
}

void repair(Section& section) {
  const condition::RepairCosts costs = invented_repair_costs();
  const std::pair<const char*, int> cases[] = {{"four of 18 cutters", 4}, {"all 18 cutters", 18}};
  for (const auto& [name, chipped] : cases) {
    condition::BitFindings findings = sound_bit();
    findings.chipped.head(chipped).setOnes();
    const condition::RepairPlan plan = condition::plan_repair(findings, costs);
    section.lines.push_back(
        limit_line(std::string("repair of ") + name + " chipped against a new bit, invented prices", trade,
                   true, "%.2f of its price", 0.5, plan.cost / costs.replacement));
  }
}

}  // namespace

std::vector<Section> rules_of_thumb(std::vector<Curve>& curves) {
  Section section;
  section.title = "3 The trade's rules of thumb, as runs of a 7-7/8 in bit of invented make";
  section.notes = {
      "Common practice has no source. Where the model differs: what cutting wears off goes by the rock that "
      "each "
      "edge cuts, not by its travel;",
      "10 gal/min cool but lift few cuttings, so the slots pack at full weight; on a new",
      "bevelled edge rake only leans the blow off the wedge's bisector, and opens the wedge only once a flat "
      "has "
      "taken the bevel."};
  weight_per_inch(section);
  slower_in_harder_rock(section, curves);
  ten_gallons(section);
  outer_cutters(section);
  hard_ground(section);
  bevel_and_rake(section);
  repair(section);
  return {section};
}

}  // namespace dullcast::proofs
