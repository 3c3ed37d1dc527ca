#include "engine/scenario/scenario.hpp"

#include <algorithm>

#include "engine/scenario/number_fields.hpp"
#include "engine/scenario/number_places.hpp"

namespace dullcast::scenario {

namespace {

bool same(const Quantity& one, const Quantity& other) {
  return one.low == other.low && one.central == other.central && one.high == other.high &&
         one.mark == other.mark && one.source == other.source;
}

template <class Record>
void visit_record(const std::string& prefix, Record& record,
                  const std::function<void(const std::string&, Quantity&)>& visit) {
  for (const auto& field : number_fields(record)) visit(prefix + field.key, record.*field.member);
}

/// Visits one number of one rock: layers that share its value share the visit. The library's value goes under
/// the rock's plain name; a layer's own value under the layer's number, counted from 1.
void visit_rock_number(std::vector<Layer>& layers, const std::string& rock,
                       const NumberField<RockRecord>& field,
                       const std::function<void(const std::string&, Quantity&)>& visit) {
  struct Group {
    std::size_t first_layer;
    std::vector<Quantity*> members;
    bool own;
  };
  std::vector<Group> groups;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    if (layers[i].rock.name != rock) continue;
    Quantity& quantity = layers[i].rock.*field.member;
    Group* found = nullptr;
    for (auto& group : groups) {
      if (same(*group.members.front(), quantity)) found = &group;
    }
    if (!found) {
      groups.push_back({i, {}, quantity.mark == "given"});
      found = &groups.back();
    }
    found->members.push_back(&quantity);
  }
  std::size_t plain = 0;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (!groups[g].own) {
      plain = g;
      break;
    }
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const std::string layer = g == plain ? "" : " (layer " + std::to_string(groups[g].first_layer + 1) + ")";
    Quantity shared = *groups[g].members.front();
    visit("rock " + rock + layer + ": " + field.key, shared);
    for (Quantity* member : groups[g].members) *member = shared;
  }
}

/// Each grade of a bit once, carried to all kinds of cutter that have it.
void visit_grades(BitRecord& bit, const std::function<void(const std::string&, Quantity&)>& visit) {
  for (std::size_t k = 0; k < bit.kinds.size(); ++k) {
    GradeRecord& grade = bit.kinds[k].grade;
    if (const std::size_t first = first_with_grade(bit.kinds, k); first < k) {
      grade = bit.kinds[first].grade;
    } else {
      visit_record("grade " + grade.name + ": ", grade, visit);
    }
  }
}

}  // namespace

std::size_t first_with_grade(const std::vector<CutterKind>& kinds, std::size_t k) {
  std::size_t first = 0;
  while (first < k && kinds[first].grade.name != kinds[k].grade.name) ++first;
  return first;
}

void for_each_number(Scenario& scenario, const std::function<void(const std::string&, Quantity&)>& visit) {
  visit_record("", scenario.numbers, visit);
  carry_edge_radius(scenario);
  visit_grades(scenario.bit, visit);
  visit_record("lot " + scenario.bit.lot.name + ": ", scenario.bit.lot, visit);
  visit_record("body " + scenario.bit.body.name + ": ", scenario.bit.body, visit);
  visit_record("fluid " + scenario.fluid.name + ": ", scenario.fluid, visit);
  std::vector<std::string> rocks;
  for (const auto& layer : scenario.column.layers) {
    if (std::find(rocks.begin(), rocks.end(), layer.rock.name) == rocks.end())
      rocks.push_back(layer.rock.name);
  }
  for (const auto& rock : rocks) {
    for (const auto& field : number_fields(RockRecord{})) {
      visit_rock_number(scenario.column.layers, rock, field, visit);
    }
  }
}

}  // namespace dullcast::scenario
