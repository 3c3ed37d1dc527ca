#include "tools/proofs/heat_table.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <ostream>
#include <stdexcept>
#include <utility>

#include "tools/proofs/page.hpp"

namespace dullcast::proofs {
namespace {

using namespace heat_reference;

constexpr double steady_limit = 0.10, transient_limit = 0.15;

struct Family {
  const char* name;
  ComparedCase (*draw)(std::uint64_t, std::uint64_t);
};
constexpr Family families[] = {
    {"worn flat", random_case}, {"land", random_land_case}, {"chip on the face", random_chip_case}};

/// Median and ends of some errors.
struct Spread {
  std::vector<double> errors;
  void add(double error) { errors.push_back(error); }
  double at(double share) {
    if (errors.empty()) return std::nan("");
    std::sort(errors.begin(), errors.end());
    return errors[static_cast<std::size_t>(std::lround(share * static_cast<double>(errors.size() - 1)))];
  }
  double worst() { return std::max(std::abs(at(0.0)), std::abs(at(1.0))); }
};

std::string line(const char* format, auto... values) {
  char text[200];
  std::snprintf(text, sizeof text, format, values...);
  return text;
}

const char* convection_band(double h) {
  return h < 500.0 ? "50 to 500" : h < 5e3 ? "500 to 5,000" : "5,000 to 50,000";
}

}  // namespace

HeatProof prove_heat(const HeatCases& cases, const std::function<void(int, int)>& progress) {
  if (cases.steady < 1 || cases.transients < 0) throw std::invalid_argument("at least one case is needed");
  HeatProof proof;
  const int lands = (cases.steady + 2) / 3;
  const int whole = cases.steady + 2 * lands + cases.transients;
  int done = 0;
  for (const Family& family : families) {
    const int count = family.draw == random_case ? cases.steady : lands;
    for (int i = 0; i < count; ++i) {
      SteadyLine found;
      found.contact = family.name;
      found.of = family.draw(cases.seed, static_cast<std::uint64_t>(i));
      found.reference = HeatedCutter(reference_case(found.of), {6, 0}).steady_resistance();
      found.network = network_resistance(found.of);
      proof.steady.push_back(found);
      progress(++done, whole);
    }
  }
  for (int i = 0; i < cases.transients; ++i) {
    const Family& family = families[i % 4 == 3 ? 1 : 0];
    const ComparedCase c = family.draw(cases.seed, static_cast<std::uint64_t>(i));
    const HeatedCutter reference(reference_case(c), {5, 0});
    for (const NamedTransient& through : usual_transients())
      proof.transients.push_back({family.name, through.name, transient_error(c, reference, through, 3)});
    progress(++done, whole);
  }
  return proof;
}

bool print_heat_proof(std::ostream& out, const HeatProof& proof) {
  std::map<std::pair<std::string, std::string>, Spread> by_band;
  std::map<std::string, Spread> by_contact, by_transient;
  for (const SteadyLine& s : proof.steady) {
    by_band[{s.contact, convection_band(s.of.convection)}].add(s.error());
    by_contact[s.contact].add(s.error());
  }
  bool holds = true;
  out << "The engine's network of four parts against the 3-D solution, on random cutters it was not fitted "
         "to\n"
         "Steady resistance from contact to coolant: network over 3-D\n"
         "  contact           convection W/(m2 K)   cases   lowest   median   highest\n";
  for (auto& [key, spread] : by_band) {
    out << line("  %-16s  %-20s  %5zu  %+6.1f %%  %+5.1f %%  %+6.1f %%\n", key.first.c_str(),
                key.second.c_str(), spread.errors.size(), 100.0 * spread.at(0.0), 100.0 * spread.at(0.5),
                100.0 * spread.at(1.0));
  }
  for (auto& [contact, spread] : by_contact) {
    const bool good = spread.worst() <= steady_limit;
    holds = holds && good;
    out << line("  %-16s  worst %.1f %%, asked for 10 %%: %s\n", contact.c_str(), 100.0 * spread.worst(),
                good ? "holds" : "FAILS");
  }
  for (const TransientLine& t : proof.transients)
    by_transient[t.contact + ", " + t.through].add(t.error.worst);
  if (!by_transient.empty()) out << "Transients past 50 ms: worst difference over the peak of the 3-D rise\n";
  for (auto& [through, spread] : by_transient) {
    const bool good = spread.worst() <= transient_limit;
    holds = holds && good;
    out << line("  %-34s %3zu cutters: %+.1f to %+.1f %%, asked for 15 %%: %s\n", through.c_str(),
                spread.errors.size(), 100.0 * spread.at(0.0), 100.0 * spread.at(1.0),
                good ? "holds" : "FAILS");
  }
  return holds;
}

std::string heat_page(const HeatCases& cases, const HeatProof& proof) {
  std::map<std::string, Spread> steady, transient;
  for (const SteadyLine& s : proof.steady) steady[s.contact].add(s.error());
  for (const TransientLine& t : proof.transients) transient[t.through].add(t.error.worst);
  std::string text =
      "Seed " + std::to_string(cases.seed) + "; the network was fitted to seed 7.\n\n" +
      table_head({"", "cases", "asked", "lowest", "median", "highest", "past what is asked", ""});
  const auto add = [&text](const std::string& what, Spread& spread, double limit, const char* asked) {
    const auto past = std::count_if(spread.errors.begin(), spread.errors.end(),
                                    [limit](double error) { return !(std::abs(error) <= limit); });
    text += table_row({what, std::to_string(spread.errors.size()), asked,
                       line("%+.1f %%", 100.0 * spread.at(0.0)), line("%+.1f %%", 100.0 * spread.at(0.5)),
                       line("%+.1f %%", 100.0 * spread.at(1.0)), std::to_string(past),
                       past == 0 ? "holds" : "**FAILS**"});
  };
  for (auto& [contact, spread] : steady) add("steady, " + contact, spread, steady_limit, "10 %");
  for (auto& [through, spread] : transient) add(through, spread, transient_limit, "15 % of the peak");
  return text;
}

void write_steady_csv(std::ostream& out, const HeatProof& proof) {
  out << "contact,diameter_mm,length_mm,table_mm,area_mm2,convection,reference_K_per_W,network_K_per_W\n";
  for (const SteadyLine& s : proof.steady) {
    const geometry::CutterShape& shape = s.of.cutter.shape;
    out << s.contact
        << line(",%.4g,%.4g,%.4g,%.4g,%.6g,%.6g,%.6g\n", 2e3 * shape.radius, 1e3 * shape.length,
                1e3 * shape.table_thickness, 1e6 * s.of.flat.area(), s.of.convection, s.reference, s.network);
  }
}

void write_transient_csv(std::ostream& out, const HeatProof& proof) {
  out << "contact,transient,worst_over_peak,at_s\n";
  for (const TransientLine& t : proof.transients)
    out << t.contact << ',' << t.through << line(",%.6g,%.6g\n", t.error.worst, t.error.at);
}

}  // namespace dullcast::proofs
