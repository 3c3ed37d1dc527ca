#include "tools/commands/uncertainty_report.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "engine/base/plain_text.hpp"
#include "engine/scenario/number_fields.hpp"
#include "tools/commands/number_words.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {
namespace {

std::string life_words(const analysis::LifeFound& life) {
  const std::string hours = base::show_number(life.rotating_time / 3600.0);
  return (life.due ? "" : "past ") + hours + " h, hole " + std::to_string(life.hole + 1);
}

std::string percents(double share) {
  return base::show_number(100.0 * share, share < 0.0995 ? 2 : 3) + " %";
}

/// Which wear a rule looks at, as number_effects has it.
std::string wear_words(const std::string& rule) {
  if (rule == "worn_height") return "the greatest worn height";
  if (rule == "heat_damage") return "heat damage";
  if (rule == "chip_probability") return "the hazard of a chip";
  return "the mean worn height of the outer third";
}

std::string times_words(double log_change) {
  return "times " + base::show_number(std::exp(log_change));
}

/// What a person could do to know this number better; common practice.
std::string how_to_know(const std::string& name) {
  const auto has = [&](const char* part) { return name.find(part) != std::string::npos; };
  if (has("abrasion_coefficient") || has("abrasivity_exponent") || has("wear_resistance"))
    return "measure the flats of a dull bit from known footage, and let the scenario calibrate on it";
  if (has("cerchar_abrasivity")) return "have the layer's cuttings or core tested for abrasivity (CAI)";
  if (has("unconfined_strength") || has("friction_angle") || has("youngs_modulus"))
    return "have a core or an outcrop of the layer tested, or a point load test made on lumps";
  if (has("flat_friction") || has("contact_strength") || has("land_") || has("psi") || has("specific_energy"))
    return "note weight, rpm, torque and progress in one layer, sharp and dull, and compare";
  if (has("conductivity") || has("conductance") || has("capacity"))
    return "ask the cutter's or the rock's laboratory sheet";
  return "narrow it by its source, or by a bit measured before and after one hole";
}

std::string mark_words(const std::string& mark) {
  if (mark == "pub") return "published";
  if (mark == "hb") return "handbook";
  if (mark == "cp") return "common practice";
  if (mark == "mem") return "from memory";
  if (mark == "fit") return "fitted";
  if (mark == "asm") return "assumed";
  return mark;
}

}  // namespace

void print_uncertainty_ranking(std::ostream& out, const scenario::Scenario& scenario,
                               const analysis::UncertaintyRanking& doubts, base::ShownUnits units, bool all) {
  const Sheet sheet{out, units};
  const analysis::LifeFound& central = doubts.central;
  out << "Doubts about \"" << scenario.title << "\": each number alone at its low and its high value\n\n";
  const bool by_life = doubts.by == analysis::RankedBy::life;
  if (by_life) {
    sheet.line("central",
               "rework due after " + life_words(central) + ", by " + rule_words(doubts.rule, scenario.rules));
  } else {
    sheet.line("central", "rework does not fall due: the run ends after " +
                              base::show_number(central.rotating_time / 3600.0) + " h in hole " +
                              std::to_string(central.hole + 1) + "; nearest to its limit is " +
                              rule_words(doubts.rule, scenario.rules));
  }
  sheet.line("", "hottest flat " + base::show(central.hottest_flat, base::shown::temperature, units) +
                     ", wear per hole " + base::show(central.wear_per_hole, base::shown::length, units, 2) +
                     ", chance of a chip " + percent_words(central.chip_probability));
  if (by_life) {
    out << "\nWhat makes it uncertain (share of the variance of the life in rotating hours)\n";
  } else {
    out << "\nThere is no life to rank by. What makes the wear of one hole uncertain instead (share of the "
           "variance of\nthe logarithm of "
        << wear_words(doubts.rule) << ")\n";
  }
  const std::vector<int> widths{8, 44, 40, 22, 20};
  sheet.row({"share", "number", "low, central, high", by_life ? "rework at low" : "wear at low",
             by_life ? "rework at high" : "wear at high"},
            widths);
  int quiet = 0;
  for (const analysis::RankedNumber& number : doubts.numbers) {
    if ((!by_life || !number.lived) && number.share < 0.001) {
      ++quiet;
      continue;
    }
    const base::Dimension* kind = scenario::dimension_of_number(number.name);
    const scenario::Quantity& q = number.quantity;
    sheet.row({percents(number.share), spoken(number.name),
               number_words(q.low, kind, units) + ", " + number_words(q.central, kind, units) + ", " +
                   number_words(q.high, kind, units),
               !by_life       ? times_words(number.spread)
               : number.lived ? life_words(number.low)
                              : "by one hole",
               !by_life       ? times_words(-number.spread)
               : number.lived ? life_words(number.high)
                              : (number.spread > 0.0 ? "longer" : "shorter")},
              widths);
  }
  out << "\nWhat the same numbers do to heat and edges\n";
  const std::vector<int> heat_widths{44, 30, 26};
  sheet.row({"number", "hottest flat at low, at high", "chance of a chip"}, heat_widths);
  for (const analysis::RankedNumber& number : doubts.numbers) {
    if (!number.lived) continue;
    const auto hot = [&](const analysis::LifeFound& life) {
      return base::show(life.hottest_flat, base::shown::temperature,
                        units == base::ShownUnits::si ? units : base::ShownUnits::field);
    };
    sheet.row(
        {spoken(number.name), hot(number.low) + ", " + hot(number.high),
         percent_words(number.low.chip_probability) + ", " + percent_words(number.high.chip_probability)},
        heat_widths);
  }
  out << "\n";
  sheet.line("the rest", std::to_string(quiet) + " numbers move the " + (by_life ? "life" : "wear") +
                             " by next to nothing" + (all ? ":" : " (--all names them)"));
  if (all) {
    for (const analysis::RankedNumber& number : doubts.numbers)
      if ((!by_life || !number.lived) && number.share < 0.001) out << "    " << spoken(number.name) << "\n";
  }
  const bool held = by_life && std::any_of(doubts.numbers.begin(), doubts.numbers.end(),
                                           [](const analysis::RankedNumber& number) {
                                             return number.lived && number.held_back;
                                           });
  if (held)
    sheet.line("",
               "Where rework is not due within twice the scenario's holes (past), the share is by what the "
               "hours or one hole's wear tell, whichever is more.");
  const bool compared = by_life && std::any_of(doubts.numbers.begin(), doubts.numbers.end(),
                                               [](const analysis::RankedNumber& number) {
                                                 return number.lived && !number.held_back;
                                               });
  if (compared)
    sheet.line("look twice", "one hole's wear and whole lives differ by " +
                                 percents(std::expm1(doubts.slopes_missed)) +
                                 " of the life at most among those lived through");
  int place = 0;
  for (const analysis::RankedNumber& number : doubts.numbers) {
    if (place == 3 || number.share < 0.01) break;
    sheet.line(
        place++ == 0 ? "know first" : "",
        spoken(number.name) + " (" + mark_words(number.quantity.mark) + "): " + how_to_know(number.name));
  }
  out << "\nEstimates: one number at a time, all others central and independent. What two numbers do "
         "together is\n"
         "not seen here, and a spread is only as good as its source.\n";
}

void write_uncertainty_csv(std::ostream& out, const analysis::UncertaintyRanking& doubts,
                           const scenario::Scenario& scenario) {
  out << "number,unit,low,central,high,mark,share,spread,lived,low_hole,low_hours,low_due,high_hole,high_"
         "hours,"
         "high_due,low_hottest_K,high_hottest_K,low_chip,high_chip,low_wear_per_hole_m,high_wear_per_hole_"
         "m,ranked_by,title,bit\n";
  const char* by = doubts.by == analysis::RankedBy::life ? "life" : "wear_of_hole";
  const auto line = [&](const analysis::RankedNumber& n) {
    const base::Dimension* kind = scenario::dimension_of_number(n.name);
    char text[500];
    std::snprintf(text, sizeof text,
                  ",%.9g,%.9g,%.9g,%s,%.6g,%.6g,%d,%d,%.6g,%d,%d,%.6g,%d,%.6g,%.6g,%.6g,%.6g,%.6g,%.6g,%s",
                  n.quantity.low, n.quantity.central, n.quantity.high, n.quantity.mark.c_str(), n.share,
                  n.spread, n.lived ? 1 : 0, n.low.hole + 1, n.low.rotating_time / 3600.0, n.low.due ? 1 : 0,
                  n.high.hole + 1, n.high.rotating_time / 3600.0, n.high.due ? 1 : 0, n.low.hottest_flat,
                  n.high.hottest_flat, n.low.chip_probability, n.high.chip_probability, n.low.wear_per_hole,
                  n.high.wear_per_hole, by);
    out << base::csv_cell(n.name) << "," << (kind ? kind->label : "") << text << ","
        << base::csv_cell(scenario.title) << "," << base::csv_cell(scenario.bit.name) << "\n";
  };
  analysis::RankedNumber central;
  central.name = "central";
  central.low = central.high = doubts.central;
  line(central);
  for (const analysis::RankedNumber& number : doubts.numbers) line(number);
}

}  // namespace dullcast::commands
