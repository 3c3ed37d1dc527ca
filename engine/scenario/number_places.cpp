#include "engine/scenario/number_places.hpp"

#include <algorithm>

#include "engine/scenario/number_fields.hpp"

namespace dullcast::scenario {

namespace {

template <class Record, class Find>
void add_record(std::vector<QuantityPlace>& places, Find find) {
  for (const auto& field : number_fields(Record{})) {
    const auto member = field.member;
    places.emplace_back([find, member](Scenario& s) -> Quantity& { return find(s).*member; });
  }
}

/// Every uncertain number's place.
std::vector<QuantityPlace> all_places(const Scenario& scenario) {
  std::vector<QuantityPlace> places;
  add_record<ModelNumbers>(places, [](Scenario& s) -> ModelNumbers& { return s.numbers; });
  for (std::size_t k = 0; k < scenario.bit.kinds.size(); ++k)
    add_record<GradeRecord>(places, [k](Scenario& s) -> GradeRecord& { return s.bit.kinds[k].grade; });
  add_record<LotRecord>(places, [](Scenario& s) -> LotRecord& { return s.bit.lot; });
  add_record<BodyRecord>(places, [](Scenario& s) -> BodyRecord& { return s.bit.body; });
  add_record<FluidRecord>(places, [](Scenario& s) -> FluidRecord& { return s.fluid; });
  for (std::size_t k = 0; k < scenario.column.layers.size(); ++k)
    add_record<RockRecord>(places, [k](Scenario& s) -> RockRecord& { return s.column.layers[k].rock; });
  return places;
}

}  // namespace

std::vector<std::vector<QuantityPlace>> places_of_numbers(const Scenario& scenario,
                                                          const std::vector<std::string>& names) {
  std::vector<std::vector<QuantityPlace>> found(names.size());
  if (names.empty()) return found;
  // A copy in which each of the numbers says which it is: for_each_number alone knows where it carries them.
  const std::string said = "number of the list: ";
  Scenario marked = scenario;
  for_each_number(marked, [&](const std::string& name, Quantity& quantity) {
    const auto last = std::find(names.rbegin(), names.rend(), name);
    if (last != names.rend()) quantity.source = said + std::to_string(names.rend() - last - 1);
  });
  for (const QuantityPlace& place : all_places(scenario)) {
    const std::string& source = place(marked).source;
    if (source.starts_with(said)) found[std::stoul(source.substr(said.size()))].push_back(place);
  }
  return found;
}

void carry_edge_radius(Scenario& scenario) {
  for (geometry::CutterShape& shape : scenario.bit.layout.shapes)
    shape.edge_radius = scenario.numbers.edge_radius.central;
}

}  // namespace dullcast::scenario
