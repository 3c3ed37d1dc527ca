#include <map>

#include "tools/schema_maker/value_shapes.hpp"

namespace dullcast::schema_maker {

namespace {

using base::range::above_zero;
using base::range::any;
using base::range::not_negative;
using base::range::share;

const std::map<std::string, Json>& by_hand() {
  static const auto all = [] {
    namespace dimension = base::dimension;
    const Json words = words_shape(), names = list_shape(words_shape()), one_or_more = any_of({words, names});
    const Json cutters = list_shape(whole_number_shape(1, 1000));
    const Json length = number_shape(dimension::length, not_negative);
    const Json time = number_shape(dimension::time, not_negative);
    const Json shares = number_shape(dimension::number, not_negative);
    const Json findings = list_shape({{"type", "string"},
                                      {"description",
                                       "A height such as 0.4 mm, or new, lost, chipped, table gone or "
                                       "not measured; chipped and table gone may go before a height."}});
    const Json turn = any_of({number_shape(dimension::angle, any), number_shape(dimension::length, any)});
    Json times = {{"type", "object"},
                  {"properties", {{"low", time}, {"central", time}, {"high", time}}},
                  {"required", {"low", "central", "high"}},
                  {"additionalProperties", false}};
    const Json some_time = any_of({time, times});
    // Of any dimension: it is that of what is drawn or varied.
    const Json value = {{"type", {"string", "number"}}};
    Json shift = {{"type", "object"},
                  {"properties", {{"days", one_or_more}, {"from", words}, {"to", words}}},
                  {"required", {"days", "from", "to"}},
                  {"additionalProperties", false}};
    const Json shifts = any_of({words, shift, list_shape(any_of({words, shift}))});
    const Json anything = Json::object();
    std::map<std::string, Json> shapes = {
        {"scenario:bit.blades.cutters_per_blade", list_shape(whole_number_shape(1, 99))},
        {"scenario:bit.blades.wing_twist", any_of({turn, list_shape(turn)})},
        {"scenario:bit.cutter.chamfer", {{"type", "string"}}},
        {"scenario:bit.cutter_kinds.NAME.chamfer", {{"type", "string"}}},
        {"scenario:bit.fitted.*.cutters", cutters},
        {"scenario:bit.rebuilt.new_cutters", cutters},
        {"scenario:bit.rebuilt.turned", cutters},
        {"scenario:bit.starting_chipped", cutters},
        {"scenario:bit.starting_lost", cutters},
        {"scenario:bit.starting_table_gone", cutters},
        {"scenario:bit.starting_wear", any_of({length, findings})},
        {"scenario:bit.starting_damage", any_of({number_shape(dimension::number, share),
                                                 list_shape(number_shape(dimension::number, share))})},
        {"scenario:bit.starting_chip_hazard", any_of({shares, list_shape(shares)})},
        {"scenario:calibrate_from.worn_height", findings},
        {"scenario:learned.together.numbers", names},
        {"scenario:learned.together.correlation",
         list_shape(list_shape({{"type", "number"}, {"minimum", -1}, {"maximum", 1}}))},
        {"scenario:stepping.output_every",
         any_of({number_shape(dimension::depth, not_negative), {{"const", "chosen"}}})},
        {"scenario:upsets.*.hole", any_of({whole_number_shape(1, 1000000), {{"const", "every"}}})},
        {"sweep:fixed", {{"type", "object"}, {"additionalProperties", words}}},
        {"sweep:factors.*.paths", names},
        {"sweep:factors.*.values", names},
        {"sweep:factors.*.linked.*.values", names},
        {"sweep:draws.lenses.*.in", names},
        {"sweep:histories.cases", list_shape(whole_number_shape(1, 1000000000000))},
        {"shop:shop.shifts", shifts},
        {"shop:shop.holidays", one_or_more},
        {"shop:shop.stations.*.shifts", shifts},
        {"shop:shop.stations.*.time", some_time},
        {"shop:shop.stations.*.time_a_piece", some_time},
        {"shop:shop.cutters.*.lead_time", some_time},
        {"shop:designs.*.lead_time", some_time},
        {"shop:rigs.*.shifts", shifts},
        {"shop:rigs.*.holidays", one_or_more},
        {"shop:changes.more_shift.shifts", shifts},
        {"shop:holes.*.drilled", one_or_more},
        {"shelf:cutters", any_of({words, list_shape(words)})},
        {"shelf:drilled", one_or_more},
        {"shelf:inner_grade", words},
        {"shelf:outer_grade", words},
        {"shelf:photos", one_or_more},
        {"shelf:repairs", one_or_more},
    };
    for (const char* key : {"mean", "deviation", "median", "from", "to", "least", "likeliest", "most", "p10",
                            "p50", "p90", "value", "not_below", "not_above"})
      shapes[std::string("sweep:draws.values.*.") + key] = value;
    return shapes;
  }();
  return all;
}

}  // namespace

std::optional<Json> shape_by_hand(const std::string& place) {
  const auto found = by_hand().find(place);
  return found == by_hand().end() ? std::nullopt : std::optional<Json>(found->second);
}

std::vector<std::string> places_by_hand() {
  std::vector<std::string> places;
  for (const auto& [place, shape] : by_hand()) places.push_back(place);
  return places;
}

}  // namespace dullcast::schema_maker
