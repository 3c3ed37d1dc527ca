#include "tools/schema_maker/value_shapes.hpp"

#include <iterator>

#include "engine/scenario/number_fields.hpp"

namespace dullcast::schema_maker {

namespace {

constexpr double no_bound = 1e299;  // what base::range has for none is more

const char* plain_pattern =
    R"(^\s*[-+]?(([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?|([0-9]+[- ])?[0-9]+/[0-9]+)\s*(%|percent)?\s*$)";
// A number, then something that is none of it.
const char* unit_pattern = R"(^\s*[-+]?[.0-9].*[^-+.,0-9/eE\s].*$)";
// Money may have its currency before it as well.
const char* money_pattern = R"(^(?=.*[^-+.,0-9/eE\s]).*[0-9].*$)";

std::string upper(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

}  // namespace

Json number_shape(const base::Dimension& wanted, const base::Range& range) {
  Json text = {{"type", "string"}};
  Json shape;
  if (wanted.rule == base::UnitRule::number) {
    Json number = {{"type", "number"}};
    if (range.least > -no_bound) number[range.least_itself ? "minimum" : "exclusiveMinimum"] = range.least;
    if (range.most < no_bound) number["maximum"] = range.most;
    text["pattern"] = plain_pattern;
    shape = any_of({number, text});
  } else {
    text["pattern"] = wanted.rule == base::UnitRule::money ? money_pattern : unit_pattern;
    shape = text;
  }
  shape["title"] = wanted.name;
  shape["description"] = upper(wanted.name) + ", " + range.words + ", such as " + wanted.examples + ".";
  return shape;
}

Json uncertain_shape(const base::Dimension& wanted, const base::Range& range, bool complete) {
  const Json number = number_shape(wanted, range);
  Json marks = Json::array();
  for (const char* mark : scenario::marks) marks.push_back(mark);
  Json map = {
      {"type", "object"},
      {"properties",
       {{"low", number},
        {"central", number},
        {"high", number},
        {"mark", {{"enum", marks}, {"description", "Where the number comes from."}}},
        {"source", {{"type", "string"}, {"description", "The paper, handbook or reason behind it."}}}}},
      {"additionalProperties", false}};
  map["required"] = complete ? Json{"low", "central", "high", "mark", "source"} : Json{"central"};
  Json shape = complete ? map : any_of({number, map});
  shape["title"] = std::string(wanted.name) + ", uncertain";
  shape["description"] =
      number["description"].get<std::string>() + " Low and high are roughly the 10 % and 90 % points.";
  return shape;
}

Json words_shape() {
  return {{"type", {"string", "number", "boolean"}}};
}

Json one_of_shape(const std::vector<std::string>& choices) {
  Json values = choices;
  for (const std::string& word : choices) {
    if (word == "true") values.push_back(true);
    if (word == "false") values.push_back(false);
  }
  return {{"enum", values}};
}

Json whole_number_shape(std::int64_t least, std::int64_t most) {
  return {{"type", "integer"}, {"minimum", least}, {"maximum", most}};
}

Json list_shape(Json items) {
  return {{"type", "array"}, {"items", std::move(items)}};
}

Json any_of(std::vector<Json> shapes) {
  if (shapes.size() == 1) return shapes.front();
  return {{"anyOf", std::move(shapes)}};
}

}  // namespace dullcast::schema_maker
