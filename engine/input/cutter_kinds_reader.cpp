#include <algorithm>

#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range share_range{0.0, 1.0, true, "from 0 to 1"};

void name_grade(MapReader& map, const std::string& name, const Library& library,
                scenario::GradeRecord& grade) {
  if (const auto* found = named_record(map, "grade", "cutter grade", name, library.grades)) grade = *found;
}

int required_kind(MapReader& map, const std::vector<scenario::CutterKind>& kinds) {
  if (!map.has("kind")) map.error("kind", "is missing; write the name of one of the cutter_kinds:");
  return read_kind(map, kinds);
}

bool is_bevel(const YamlEntry& entry) {
  return entry.key == "bevel_width" || entry.key == "bevel_angle";
}

}  // namespace

YamlValue cutter_laid_over(const YamlValue& base, const YamlValue& over) {
  if (!base.is_map()) return over;
  YamlValue from = base;
  const bool measured = over.find("diameter") || over.find("length"), coded = over.find("size") != nullptr;
  const bool chamfered = over.find("chamfer") != nullptr;
  const bool bevelled = over.find("bevel_width") || over.find("bevel_angle");
  std::erase_if(from.entries, [&](const YamlEntry& entry) {
    return (measured && entry.key == "size") || (chamfered && is_bevel(entry)) ||
           (bevelled && entry.key == "chamfer") ||
           (coded && (entry.key == "diameter" || entry.key == "length"));
  });
  return laid_over(from, over);
}

void read_cutter_kinds(MapReader& bit, const Library& library, scenario::BitRecord& record) {
  const double edge_radius = library.models.edge_radius.central;
  const YamlValue usual = bit.find("cutter") ? *bit.find("cutter") : no_value();
  std::vector<geometry::CutterShape>& shapes = record.layout.shapes;
  shapes = {read_cutter_shape(bit.map("cutter"), edge_radius)};
  record.kinds = {{usual_kind, {}}};
  const std::string grade = bit.word("grade").value_or("standard");
  name_grade(bit, grade, library, record.kinds.front().grade);
  const YamlValue* others = bit.find("cutter_kinds");
  MapReader kinds = bit.map("cutter_kinds");
  if (!others || !others->is_map()) return;
  for (const YamlEntry& entry : others->entries) {
    if (entry.key == usual_kind)
      kinds.error(entry.key, "is what the cutters of cutter: are called; take another name");
    kinds.find(entry.key);
    const YamlValue merged = cutter_laid_over(usual, entry.value);
    MapReader kind(merged, kinds.path_of(entry.key), bit.reading(), entry.location);
    scenario::GradeRecord own = record.kinds.front().grade;
    if (const auto word = kind.word("grade")) name_grade(kind, *word, library, own);
    shapes.push_back(read_cutter_shape(kind, edge_radius));
    record.kinds.push_back({entry.key, own});
  }
}

int read_kind(MapReader& map, const std::vector<scenario::CutterKind>& kinds) {
  const std::string name = map.word("kind").value_or(usual_kind);
  std::vector<std::string> names;
  for (const scenario::CutterKind& kind : kinds) {
    if (kind.name == name) return static_cast<int>(names.size());
    names.push_back(kind.name);
  }
  map.error("kind", unknown_name("kind of cutter on this bit", name, names));
  return 0;
}

std::vector<geometry::FittedCutter> read_fitted(MapReader& bit,
                                                const std::vector<scenario::CutterKind>& kinds) {
  std::vector<geometry::FittedCutter> result;
  const auto& items = bit.list("fitted");
  for (std::size_t k = 0; k < items.size(); ++k) {
    MapReader item(items[k], bit.path_of("fitted") + "." + std::to_string(k), bit.reading(), bit.location());
    const int kind = required_kind(item, kinds);
    if (!item.has("cutters")) item.error("cutters", "is missing; write their numbers, such as [17, 18]");
    const auto& numbers = item.list("cutters");
    for (std::size_t j = 0; j < numbers.size(); ++j) {
      const std::string path = item.path_of("cutters") + "." + std::to_string(j);
      const int cutter = cutter_number(numbers[j]);
      if (cutter < 1) {
        bit.reading().problems.error(numbers[j].location, path,
                                     kind_name(numbers[j]) + " is no cutter; count them from 1");
      } else if (std::any_of(result.begin(), result.end(),
                             [&](const auto& fitted) { return fitted.cutter == cutter - 1; })) {
        bit.reading().problems.error(numbers[j].location, path,
                                     "names cutter " + numbers[j].text + " twice; keep one of them");
      } else {
        result.push_back({cutter - 1, kind});
      }
    }
    item.finish();
  }
  return result;
}

void check_fitted(MapReader& bit, const std::vector<geometry::FittedCutter>& fitted, Eigen::Index cutters) {
  for (const geometry::FittedCutter& one : fitted) {
    if (one.cutter >= cutters)
      bit.error("fitted", "names cutter " + std::to_string(one.cutter + 1) + "; this bit has " +
                              std::to_string(cutters));
  }
}

std::vector<geometry::KindZone> read_kind_zones(MapReader& blades,
                                                const std::vector<scenario::CutterKind>& kinds) {
  std::vector<geometry::KindZone> zones;
  const auto& items = blades.list("kinds");
  for (std::size_t k = 0; k < items.size(); ++k) {
    MapReader item(items[k], blades.path_of("kinds") + "." + std::to_string(k), blades.reading(),
                   blades.location());
    const double from = item.required("from", base::dimension::number, share_range, "0.67");
    const int kind = required_kind(item, kinds);
    item.finish();
    if (!zones.empty() && !(zones.back().from < from))
      item.error("from", "does not lie further out than the one before; list zones from the axis outward");
    zones.push_back({from, kind});
  }
  return zones;
}

}  // namespace dullcast::input
