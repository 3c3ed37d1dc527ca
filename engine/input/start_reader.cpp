#include <cmath>
#include <limits>

#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "engine/input/cutter_findings.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range hazard_range{0.0, 1000.0, true, "from 0 to 1000"};
constexpr base::Range worn_body_range{0.0, 0.1, true, "from 0 to 100 mm"};
/// What an earlier result brings along whole.
constexpr const char* brought_along[] = {"starting_damage", "starting_chip_hazard", "starting_erosion",
                                         "starting_blade_wear", "starting_pad_wear"};

std::string millimetres(double length) {
  return base::plain_number(1000.0 * length) + " mm";
}

/// Reports a list of another length than the bit has cutters; a bit that cannot be laid out has none.
bool one_a_cutter(MapReader& bit, const char* key, const YamlValue& list, Eigen::Index n) {
  if (n == 0 || list.items.size() == static_cast<std::size_t>(n)) return true;
  bit.error(key, "has " + std::to_string(list.items.size()) + " values for " + std::to_string(n) +
                     " cutters; write one value for all, or one a cutter from the axis outward");
  return false;
}

Eigen::ArrayXd per_cutter(MapReader& bit, const char* key, Eigen::Index n, const base::Dimension& wanted,
                          const base::Range& range) {
  Eigen::ArrayXd result = Eigen::ArrayXd::Zero(n);
  const YamlValue* value = bit.find(key);
  if (!value) return result;
  if (!value->is_list()) {
    if (const auto same = read_number(*value, bit.path_of(key), wanted, range, bit.reading())) {
      result.setConstant(*same);
    }
    return result;
  }
  if (!one_a_cutter(bit, key, *value, n)) return result;
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const std::string path = bit.path_of(key) + "." + std::to_string(i);
    result(i) = read_number(value->items[k], path, wanted, range, bit.reading()).value_or(0.0);
  }
  return result;
}

/// A list of cutter numbers, counted from 1: 1 at those cutters, 0 elsewhere.
Eigen::ArrayXi named_cutters(MapReader& bit, const char* key, Eigen::Index n) {
  Eigen::ArrayXi result = Eigen::ArrayXi::Zero(n);
  const auto& items = bit.list(key);
  for (std::size_t k = 0; n > 0 && k < items.size(); ++k) {
    const std::string& text = items[k].text;
    const int number = cutter_number(items[k]);
    const std::string path = bit.path_of(key) + "." + std::to_string(k);
    if (number < 1 || number > n) {
      bit.reading().problems.error(items[k].location, path,
                                   kind_name(items[k]) + " is no cutter of this bit; count them from 1 to " +
                                       std::to_string(n) + ", from the axis outward");
    } else if (result(number - 1) == 1) {
      bit.reading().problems.error(items[k].location, path,
                                   "names cutter " + text + " twice; keep one of them");
    } else {
      result(number - 1) = 1;
    }
  }
  return result;
}

/// What the list under starting_wear says of each cutter; empty when it is no list, or none of n items.
std::vector<CutterFinding> read_findings(MapReader& bit, Eigen::Index n) {
  const YamlValue* value = bit.find("starting_wear");
  std::vector<CutterFinding> findings;
  if (!value || !value->is_list() || !one_a_cutter(bit, "starting_wear", *value, n)) return findings;
  for (std::size_t k = 0; k < value->items.size(); ++k) {
    const std::string path = bit.path_of("starting_wear") + "." + std::to_string(k);
    findings.push_back(read_finding(value->items[k], path, bit.reading()));
  }
  return findings;
}

/// 1 where a list's words mark a cutter, or the marks given do.
Eigen::ArrayXi marks_of(const std::vector<CutterFinding>& findings, bool CutterFinding::*what,
                        Eigen::ArrayXi marks) {
  for (Eigen::Index i = 0; i < marks.size() && static_cast<std::size_t>(i) < findings.size(); ++i) {
    if (findings[static_cast<std::size_t>(i)].*what) marks(i) = 1;
  }
  return marks;
}

/// Says what was taken for each cutter that was not measured.
void warn_of_unmeasured(MapReader& bit, const std::vector<CutterFinding>& findings,
                        const Eigen::ArrayXd& heights) {
  std::string taken;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const CutterFinding& one = findings[i];
    if (one.height || one.renewed || one.lost) continue;
    const double micrometres = std::round(1e6 * heights(static_cast<Eigen::Index>(i)));
    taken += (taken.empty() ? "" : ", ") + std::to_string(i + 1) + " (" + millimetres(1e-6 * micrometres) +
             (one.chipped ? ", chipped" : "") + ")";
  }
  if (!taken.empty())
    bit.warn("starting_wear",
             "was not measured on every cutter; taken from the nearest that were: cutter " + taken);
}

/// An edge that has chipped is a flat by what broke off; the reader is told where nothing says how much.
void warn_of_chips(MapReader& bit, const scenario::BitRecord& record) {
  for (Eigen::Index i = 0; i < record.layout.count(); ++i) {
    if (record.starting_chipped(i) && !(record.starting_wear(i) > 0.0))
      bit.warn("starting_chipped", "cutter " + std::to_string(i + 1) +
                                       " is chipped, but nothing is off its edge; write how much under "
                                       "starting_wear, such as chipped 0.5 mm");
  }
}

/// The wear of a bit that starts by itself.
void read_own_wear(MapReader& bit, const std::vector<CutterFinding>& findings, scenario::BitRecord& record) {
  const auto n = record.layout.count();
  const YamlValue* value = bit.find("starting_wear");
  if (!value || !value->is_list()) {
    record.starting_wear =
        per_cutter(bit, "starting_wear", n, base::dimension::length, base::range::not_negative);
    return;
  }
  record.starting_wear = Eigen::ArrayXd::Zero(n);
  if (n == 0 || findings.empty()) return;  // what is wrong is told already
  const auto heights = heights_of(findings, record.layout.radius);
  if (!heights) {
    bit.error("starting_wear",
              "has no measured height from which the cutters not measured could be taken; give one at least");
    return;
  }
  record.starting_wear = *heights;
  for (Eigen::Index i = 0; i < n; ++i) {
    if (!findings[static_cast<std::size_t>(i)].renewed) continue;
    record.starting_damage(i) = record.starting_chip_hazard(i) = 0.0;
    if (record.starting_lost(i) || record.starting_table_gone(i) || record.starting_chipped(i))
      bit.error("starting_wear", "calls cutter " + std::to_string(i + 1) +
                                     " new, and another key calls it lost, chipped or without its table; "
                                     "keep one of them");
  }
  warn_of_unmeasured(bit, findings, record.starting_wear);
}

/// What was found and done since the earlier result.
scenario::SinceResult read_since_result(MapReader& bit, const std::vector<CutterFinding>& findings,
                                        const scenario::BitRecord& record) {
  const auto n = record.layout.count();
  for (const char* key : brought_along) {
    if (bit.has(key))
      bit.error(key, "is given beside continues:, which brings the wear along; keep one of them");
  }
  const YamlValue* wear = bit.find("starting_wear");
  if (wear && !wear->is_list()) {
    bit.error(
        "starting_wear",
        "is one value beside continues:, which brings the wear along; keep one of them, or list what was "
        "measured, with not measured where the result is to stand");
  }
  scenario::SinceResult since;
  since.lost = record.starting_lost;
  since.table_gone = record.starting_table_gone;
  since.chipped = record.starting_chipped;
  if (n > 0 && !findings.empty()) {
    since.worn_height = Eigen::ArrayXd::Constant(n, std::numeric_limits<double>::quiet_NaN());
    for (Eigen::Index i = 0; i < n; ++i) {
      if (const auto& height = findings[static_cast<std::size_t>(i)].height) since.worn_height(i) = *height;
    }
  }
  MapReader rebuilt = bit.map("rebuilt");
  since.renewed = marks_of(findings, &CutterFinding::renewed, named_cutters(rebuilt, "new_cutters", n));
  since.turned = named_cutters(rebuilt, "turned", n);
  since.blades_built_up = rebuilt.yes_or_no("blades_built_up").value_or(false);
  since.pads_built_up = rebuilt.yes_or_no("pads_built_up").value_or(false);
  rebuilt.finish();
  for (Eigen::Index i = 0; i < n; ++i) {
    if (!since.turned(i)) continue;
    const std::string cutter = "cutter " + std::to_string(i + 1);
    if (since.renewed(i)) rebuilt.error("turned", cutter + " is new as well; keep one of them");
    if (since.lost(i) || since.table_gone(i))
      rebuilt.error("turned", cutter + " was found lost or without its diamond and has no edge to turn");
  }
  return since;
}

/// `worn` is NaN where the wear comes from an earlier result.
void check_wear(MapReader& bit, const scenario::BitRecord& record, const Eigen::ArrayXd& worn,
                const Eigen::ArrayXi& lost) {
  for (Eigen::Index i = 0; i < worn.size(); ++i) {
    if (worn(i) > record.layout.exposure(i)) {
      bit.error("starting_wear", "cutter " + std::to_string(i + 1) + " is worn " + millimetres(worn(i)) +
                                     ", beyond its exposure of " + millimetres(record.layout.exposure(i)) +
                                     ": past repair");
      break;
    }
  }
  if (lost.size() > 0 && lost.minCoeff() == 1) {
    bit.error(bit.has("starting_lost") ? "starting_lost" : "starting_wear",
              "leaves no cutter on the bit; name those that are missing only");
  }
  const auto beyond = [&](const char* key, double gone, double height, const char* what) {
    if (height > 0.0 && gone >= height) {
      bit.error(key, "is all of the " + std::string(what) + "'s " + millimetres(height) + ": past repair");
    }
  };
  beyond("starting_blade_wear", record.starting_blade_wear, record.build.blade_height, "blade");
  beyond("starting_erosion", record.starting_erosion, record.build.blade_thickness, "blade");
  beyond("starting_pad_wear", record.starting_pad_wear, record.layout.bit_radius, "bit");
}

}  // namespace

int cutter_number(const YamlValue& value) {
  const std::string& text = value.text;
  const bool whole = value.is_scalar() && !text.empty() && text.size() < 5 &&
                     text.find_first_not_of("0123456789") == std::string::npos;
  return whole ? std::stoi(text) : 0;
}

void read_start(MapReader& bit, scenario::BitRecord& record, const std::string& folder) {
  const auto n = record.layout.count();
  record.starting_damage = per_cutter(bit, "starting_damage", n, base::dimension::number, base::range::share);
  record.starting_chip_hazard =
      per_cutter(bit, "starting_chip_hazard", n, base::dimension::number, hazard_range);
  const std::vector<CutterFinding> findings = read_findings(bit, n);
  record.starting_lost = marks_of(findings, &CutterFinding::lost, named_cutters(bit, "starting_lost", n));
  record.starting_table_gone =
      marks_of(findings, &CutterFinding::table_gone, named_cutters(bit, "starting_table_gone", n));
  record.starting_chipped =
      marks_of(findings, &CutterFinding::chipped, named_cutters(bit, "starting_chipped", n));
  record.starting_erosion = bit.number_or("starting_erosion", base::dimension::length, worn_body_range, 0.0);
  record.starting_blade_wear =
      bit.number_or("starting_blade_wear", base::dimension::length, worn_body_range, 0.0);
  record.starting_pad_wear =
      bit.number_or("starting_pad_wear", base::dimension::length, worn_body_range, 0.0);
  const auto path = bit.word("continues");
  if (!path) {
    read_own_wear(bit, findings, record);
    check_wear(bit, record, record.starting_wear, record.starting_lost);
    warn_of_chips(bit, record);
    bit.find("rebuilt");
    if (bit.has("rebuilt"))
      bit.error(
          "rebuilt",
          "belongs beside continues:, an earlier result; without one, say what each cutter is like under "
          "starting_wear, new among them");
    return;
  }
  record.continues = path_beside(*path, folder);
  record.since_result = read_since_result(bit, findings, record);
  check_wear(bit, record, record.since_result.worn_height,
             record.since_result.lost * (1 - record.since_result.renewed));
  record.starting_wear = Eigen::ArrayXd::Zero(n);
  record.starting_lost = record.starting_table_gone = record.starting_chipped = Eigen::ArrayXi::Zero(n);
}

}  // namespace dullcast::input
