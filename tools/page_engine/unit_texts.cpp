#include "tools/page_engine/unit_texts.hpp"

#include <cstdio>
#include <map>
#include <utility>

#include "engine/base/dimension.hpp"
#include "engine/input/unit_database.hpp"
#include "engine/input/unit_words.hpp"
#include "engine/input/units.hpp"

namespace dullcast::page_engine {
namespace {

using Texts = std::vector<std::string>;
namespace dimension = base::dimension;

const Texts lengths = {"m",          "mm",         "cm",         "km",         "um",        "micron",
                       "micrometre", "micrometer", "millimetre", "millimeter", "kilometre", "in",
                       "inch",       "inches",     "ft",         "foot",       "feet",      "yd",
                       "yard",       "thou",       "metre",      "metres",     "meter",     "meters"};
const Texts times = {"s", "sec", "second", "seconds", "ms",    "min", "minute", "minutes", "mins",
                     "h", "hr",  "hrs",    "hour",    "hours", "d",   "day",    "days"};
const Texts masses = {"kg", "g", "mg", "lb", "lbs", "pound", "pounds", "t", "tonne", "ton"};
const Texts volumes = {"m3",     "m^3",    "cm3",     "mm3", "ft3",    "ft^3",   "in3",    "in^3",
                       "gal",    "gallon", "gallons", "L",   "l",      "litre",  "litres", "liter",
                       "liters", "mL",     "ml",      "bbl", "barrel", "barrels"};
const Texts forces = {"N", "kN", "MN", "daN", "mN", "lbf", "klbf", "kgf"};
const Texts masses_as_forces = {"lb", "lbs", "pound", "pounds", "klb", "klbs", "kg", "t", "tonne", "tonnes"};
const Texts pressures = {"Pa",  "kPa", "hPa",   "MPa",  "GPa",     "bar",     "psi",
                         "ksi", "atm", "N/mm2", "N/m2", "lbf/in2", "kgf/cm2", "N/mm^2"};
const Texts energies = {"J", "kJ", "MJ", "GJ", "kWh", "Btu", "ft lbf", "ft.lbf"};
const Texts differences = {"K", "C", "degC", "°C", "celsius", "F", "degF", "°F", "degR"};
const Texts plain_differences = {"K", "C", "degC"};

Texts per(const Texts& above, const Texts& below) {
  Texts result;
  for (const std::string& one : above) {
    for (const std::string& other : below) result.push_back(one + "/" + other);
  }
  return result;
}

Texts together(std::initializer_list<Texts> lists) {
  Texts result;
  for (const Texts& list : lists) result.insert(result.end(), list.begin(), list.end());
  return result;
}

/// "W/(m K)" and the other ways of writing what one thing is per two others.
Texts per_two(const Texts& above, const Texts& first, const Texts& second) {
  Texts result;
  for (const std::string& one : above) {
    for (const std::string& a : first) {
      for (const std::string& b : second) {
        for (const char* joint : {" ", ".", "*"}) result.push_back(one + "/(" + a + joint + b + ")");
        result.push_back(one + "/" + a + "/" + b);
      }
    }
  }
  return result;
}

/// A product, in the ways of writing one.
Texts times_unit(const Texts& first, const Texts& second) {
  Texts result;
  for (const std::string& a : first) {
    for (const std::string& b : second) {
      for (const char* joint : {" ", ".", "*"}) result.push_back(a + joint + b);
    }
  }
  return result;
}

struct Kind {
  base::Dimension dimension;
  Texts texts;
};

std::vector<Kind> kinds() {
  const Texts areas = {"m2", "m^2", "mm2", "cm2", "ft2"};
  const Texts lengths_of_tables = {"m", "km", "ft", "100m", "100 m", "100ft", "100 ft"};
  return {
      {dimension::length, lengths},
      {dimension::angle, {"deg", "degree", "degrees", "°", "rad", "radian", "radians"}},
      {dimension::force, together({forces, masses_as_forces})},
      {dimension::weight_per_length, together({per(masses, {"m", "ft", "foot", "mm", "in"}),
                                               per(forces, {"m", "ft", "foot", "mm", "in"})})},
      {dimension::pressure, pressures},
      {dimension::rotary_speed, together({{"rpm", "rad/s", "deg/s", "rad/min"},
                                          per({"rev", "revs", "revolution", "revolutions"}, times)})},
      {dimension::flow, together({{"gpm", "lpm", "cfm"}, per(volumes, times)})},
      {dimension::speed, per(lengths, times)},
      {dimension::time, times},
      {dimension::density, together({{"ppg"}, per(masses, volumes)})},
      {dimension::viscosity,
       together({{"cP", "cp", "centipoise", "poise"}, times_unit({"Pa", "mPa"}, {"s"})})},
      {dimension::temperature, {"K", "C", "degC", "°C", "celsius", "F", "degF", "°F", "degR"}},
      {dimension::temperature_difference, differences},
      {dimension::temperature_gradient, per(differences, lengths_of_tables)},
      {dimension::conductivity,
       together({{"W/mK", "W/m K"}, per_two({"W", "kW"}, {"m", "cm"}, plain_differences)})},
      {dimension::heat_capacity,
       together({{"J/kgK", "J/kg K"}, per_two({"J", "kJ"}, {"kg", "g"}, plain_differences)})},
      {dimension::conductance,
       together({{"W/m2K", "W/m2 K"}, per_two({"W", "kW", "MW"}, areas, plain_differences)})},
      {dimension::abrasion,
       together({per(areas, {"N", "kN"}), per_two({"m3", "m^3", "mm3", "mm^3"}, {"N"}, {"m", "mm", "km"})})},
      {dimension::per_length, together({per({"1"}, lengths), {"m-1", "m^-1", "ft-1"}})},
      {dimension::impedance, together({per_two({"kg"}, {"m2", "m^2"}, {"s"}),
                                       per(times_unit({"Pa", "kPa", "MPa"}, {"s"}), {"m"})})},
      {dimension::stress_per_kelvin, per({"Pa", "kPa", "MPa", "GPa", "psi"}, plain_differences)},
      {dimension::per_kelvin, together({per({"1"}, differences), {"K-1", "K^-1"}})},
      {dimension::power, {"W", "kW", "MW", "hp"}},
      {dimension::fuel_energy, per(energies, volumes)},
      // What money is per is read as a plain unit.
      {{"a time", "s", "s", "", base::UnitRule::plain}, times},
      {{"a length", "m", "m", "", base::UnitRule::plain}, lengths},
  };
}

}  // namespace

std::vector<UnitAnswer> unit_answers() {
  const input::UnitDatabase database;
  std::map<std::pair<std::string, std::string>, UnitAnswer> answers;
  for (const Kind& kind : kinds()) {
    const bool weight = kind.dimension.rule == base::UnitRule::weight_per_length;
    Texts texts = kind.texts;
    texts.emplace_back(kind.dimension.label);  // as this program writes it
    for (const std::string& text : texts) {
      const std::string words = input::udunits_words(text, kind.dimension.rule);
      std::string si = kind.dimension.si;
      input::UnitLine line = database.line(words, si);
      if (!line && weight) line = database.line(words, si = "kg/m");
      if (!line) throw input::UnitError("\"" + text + "\" is not " + kind.dimension.name);
      const double offset = line(0.0);
      answers[{words, si}] = {words, si, offset == 0.0 ? line(1.0) : line(1.0) - offset, offset};
    }
  }
  std::vector<UnitAnswer> result;
  for (auto& [key, answer] : answers) result.push_back(std::move(answer));
  return result;
}

std::string unit_table_text(const std::vector<UnitAnswer>& answers) {
  std::string text =
      "// Written by page-answers --units; what UDUNITS-2 says of the units that pages know.\n";
  for (const UnitAnswer& answer : answers) {
    char numbers[80];
    std::snprintf(numbers, sizeof numbers, "%.17g, %.17g", answer.factor, answer.offset);
    text += "{\"" + answer.words + "\", \"" + answer.si + "\", " + numbers + "},\n";
  }
  return text;
}

}  // namespace dullcast::page_engine
