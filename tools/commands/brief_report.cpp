#include "tools/commands/brief_report.hpp"

#include "engine/base/display.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {
void print_brief(std::ostream& out, const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                 const std::vector<simulation::LifeEnd>& band, bool calibrated, base::ShownUnits units) {
  const Sheet sheet{out, units};
  out << scenario.title << " (" << scenario.bit.name << ")\n";
  std::string due = due_words(scenario, outcome);
  const simulation::Milestone* milestone = outcome.rework_due ? &*outcome.rework_due : nullptr;
  due += ", after " +
         base::show(milestone ? milestone->footage : outcome.footage, base::shown::depth, units, 4) +
         " and " +
         base::show(milestone ? milestone->rotating_time : outcome.rotating_time, base::shown::hours,
                    base::ShownUnits::si) +
         " rotating";
  if (scenario.random_events.drawn)
    due += ", in this one draw of chance (seed " + std::to_string(scenario.random_events.seed) + ")";
  sheet.line("rework due", due);
  if (milestone)
    sheet.line("by the rule",
               rule_words(milestone->rule, scenario.rules) + ": " + cutter_words(milestone->cutters));
  const simulation::LifeEnd *low = pages::end_named(band, "low"), *high = pages::end_named(band, "high");
  if (low != nullptr && high != nullptr)
    sheet.line("band",
               "low " + end_words(*low) + ", high " + end_words(*high) +
                   "; one in ten is worse, one better (" + (calibrated ? "calibrated" : "uncalibrated") +
                   (low->draws > 0 ? ", of " + std::to_string(low->draws) + " draws of chance)" : ")"));
  const simulation::HottestMoment& hot = outcome.hottest;
  if (hot.temperature > 0.0)
    sheet.line("hottest", base::show(hot.temperature, base::shown::temperature, units) + ", cutter " +
                              std::to_string(hot.cutter + 1) + " in " +
                              spoken(scenario.column.layers[static_cast<std::size_t>(hot.layer)].rock.name) +
                              ", hole " + std::to_string(hot.hole + 1));
  sheet.line("this ground", verdict_in_a_line(scenario, outcome, units));
  if (const std::string first = pages::first_to_do(scenario, outcome, calibrated); !first.empty())
    sheet.line("first to do", first);
  sheet.line("inspect", pages::inspect_words(band, outcome));
  out << "Estimates; the bit in the hand decides. Keep clear of rotating iron; local codes come first.\n";
}

}  // namespace dullcast::commands
