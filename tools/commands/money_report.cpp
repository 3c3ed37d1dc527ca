#include "tools/commands/money_report.hpp"

#include "engine/analysis/economics.hpp"

namespace dullcast::commands {

void print_money(const Sheet& sheet, const analysis::Forecast& forecast, bool band) {
  const scenario::Scenario& scenario = forecast.central_scenario;
  const std::optional<analysis::RunCost> cost = analysis::run_cost(scenario, forecast.central);
  if (!cost) return;
  const std::string& currency = scenario.costs.currency;
  sheet.heading(std::string("Cost and energy, ") +
                (forecast.central.rework_due ? "to rework" : "to the end of the run"));
  std::string range;
  if (band) {
    const std::optional<analysis::RunCost> low = analysis::run_cost(scenario, forecast.severe),
                                           high = analysis::run_cost(scenario, forecast.mild);
    if (low && high) {
      range = "  (low life " +
              base::show_money_per_length(low->per_metre, currency, base::ShownUnits::field) +
              ", high life " +
              base::show_money_per_length(high->per_metre, currency, base::ShownUnits::field) + ")";
    }
  }
  sheet.line("bit and rig",
             cost->per_metre > 0.0
                 ? base::show_money_per_length(cost->per_metre, currency, base::ShownUnits::both) + range
                 : std::string("no cost of bit or rig given (costs)"));
  std::string energy = base::show(cost->energy, base::shown::energy, sheet.units) + " at the bit";
  if (cost->fuel > 0.0)
    energy += ", " + base::show(cost->fuel, base::shown::volume, sheet.units) + " of fuel";
  sheet.line("energy", energy);
  if (cost->waiting && *cost->waiting > 0.0) {
    sheet.line("left too long", "a rework is " + base::show_money(scenario.costs.rework, currency) +
                                    "; past repair a new bit costs " +
                                    base::show_money(*cost->waiting, currency, 4) + " more");
  }
  sheet.out << "\n";
}

void print_other_method(const Sheet& sheet, const analysis::Forecast& forecast) {
  const scenario::Scenario& scenario = forecast.central_scenario;
  const std::optional<analysis::MethodComparison> compared =
      analysis::compare_methods(scenario, forecast.central);
  if (!compared) return;
  const std::string name = spoken(scenario.other_method->name);
  const analysis::PerMetre &bit = compared->bit, &other = compared->other;
  sheet.heading("Beside it: " + name + ", by the scenario's figures for it");
  const int width = sheet.units == base::ShownUnits::both ? 28 : 24;
  const auto beside = [&](const char* label, const std::string& ours, const std::string& theirs) {
    sheet.row({label, ours, theirs}, {26, width});
  };
  const auto heat = [](double joules_per_metre) {
    return base::show_number(1e-6 * joules_per_metre) + " MJ/m";
  };
  const std::string& currency = scenario.costs.currency;
  beside("", "this bit", name);
  beside("drilling", base::show(1.0 / bit.rotating, base::shown::progress, sheet.units),
         base::show(1.0 / other.rotating, base::shown::progress, sheet.units));
  beside("with rods and trips", base::show(1.0 / bit.elapsed, base::shown::progress, sheet.units),
         base::show(1.0 / other.elapsed, base::shown::progress, sheet.units));
  beside(compared->fuel_known ? "fuel's heat" : "work at bit / fuel's heat", heat(bit.fuel_heat),
         heat(other.fuel_heat));
  beside("money, without fuel", base::show_money_per_length(bit.money, currency, base::ShownUnits::both),
         base::show_money_per_length(other.money, currency, base::ShownUnits::both));
  sheet.out << "  Fuel of the bit counts what turns and pushes it; rig engines burn more for the pump and "
               "idling.\n\n";
}

}  // namespace dullcast::commands
