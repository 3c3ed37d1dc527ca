#include "engine/learning/finding_kinds.hpp"

#include <algorithm>

namespace dullcast::learning {

const char* finding_words(FindingKind finding) {
  switch (finding) {
    case FindingKind::heights:
      return "worn heights";
    case FindingKind::grades:
      return "dull grades";
    case FindingKind::chips:
      return "chipped edges";
    case FindingKind::lost:
      return "lost cutters";
    case FindingKind::bare:
      return "tables off their carbide";
    case FindingKind::heat_checks:
      return "heat checks";
  }
  return "";
}

bool was_looked_at(const scenario::InspectedBit& found, FindingKind finding) {
  const auto any = [&](const auto& seen) {
    return std::any_of(found.cutters.begin(), found.cutters.end(), seen);
  };
  const bool noted = !found.cutters.empty() && found.breakage_noted;
  switch (finding) {
    case FindingKind::heights:
      return any([](const scenario::CutterSeen& one) { return one.tells_wear(); });
    case FindingKind::grades:
      return found.inner_grade || found.outer_grade;
    case FindingKind::chips:
      return found.chipped || noted || any([](const scenario::CutterSeen& one) { return one.chipped; });
    case FindingKind::lost:
      return found.lost || noted || any([](const scenario::CutterSeen& one) { return one.lost; });
    case FindingKind::bare:
      return noted || any([](const scenario::CutterSeen& one) { return one.table_gone; });
    case FindingKind::heat_checks:
      return found.heat_checked || noted ||
             any([](const scenario::CutterSeen& one) { return one.heat_checked; });
  }
  return false;
}

}  // namespace dullcast::learning
