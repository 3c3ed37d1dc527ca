#include "tools/schema_maker/make_schemas.hpp"

#include <algorithm>
#include <set>

#include "engine/input/scenario_reader.hpp"
#include "engine/input/text_file.hpp"
#include "tools/schema_maker/key_reference.hpp"
#include "tools/schema_maker/key_tree.hpp"
#include "tools/schema_maker/schema_writer.hpp"
#include "tools/schema_maker/value_shapes.hpp"

namespace dullcast::schema_maker {

namespace {

using input::AskedFor;

Names names_in(const std::string& scenarios) {
  const input::ScenarioReader reader(scenarios + "/library");
  const input::Library& library = reader.library();
  return {{"rock", input::names_of(library.rocks)},   {"grade", input::names_of(library.grades)},
          {"lot", input::names_of(library.lots)},     {"body", input::names_of(library.bodies)},
          {"fluid", input::names_of(library.fluids)}, {"bit.like", input::names_of(library.bits)}};
}

void require(Json& map, const std::vector<std::string>& keys) {
  map["required"] = keys;
}

/// Which definitions a schema refers to.
void collect_references(const Json& part, std::set<std::string>& names) {
  if (part.is_object() && part.contains("$ref"))
    names.insert(part["$ref"].get<std::string>().substr(std::string("#/definitions/").size()));
  if (part.is_structured()) {
    for (const Json& below : part) collect_references(below, names);
  }
}

/// As a file, without definitions that nothing refers to.
std::string text_of(Json schema) {
  std::set<std::string> used;
  collect_references(schema, used);
  Json definitions = Json::object();
  if (schema.contains("definitions")) {
    for (const auto& [name, shape] : schema["definitions"].items()) {
      if (used.contains(name)) definitions[name] = shape;
    }
    schema["definitions"] = definitions;
  }
  return schema.dump(1) + "\n";
}

/// The shape among those of an anyOf that has this type.
Json& of_type(Json& shape, const char* type) {
  if (shape.contains("anyOf")) {
    for (Json& one : shape["anyOf"]) {
      if (one.contains("type") && one["type"] == type) return one;
    }
  }
  return shape;
}

Json scenario_map(SchemaWriter& writer, const KeyTree& keys, const Names& names) {
  Json map = writer.map_shape(keys, "");
  Json& properties = map["properties"];
  const Json bit = properties["bit"];
  for (Json* bits : {&properties["bits"], &of_type(properties["learned"], "object")["properties"]["bits"]})
    (*bits)["additionalProperties"] = bit;
  // A name, or a map that begins with one.
  for (const char* key : {"fluid", "learned"}) {
    Json& here = properties[key];
    const Json words = here.contains("description") ? here["description"] : Json();
    here.erase("description");
    here = any_of({Json{{"type", "string"}}, here});
    if (!words.is_null()) here["description"] = words;
    if (std::string(key) == "fluid") here["examples"] = names.at("fluid");
  }
  return map;
}

std::string library_schema(const std::string& file, const KeyTree& keys, const KeyReference& reference,
                           const Names& names) {
  SchemaWriter writer("library", reference, names, true);
  if (file == "models") {
    Json map = writer.map_shape(keys.at("models"), "models");
    std::vector<std::string> all;
    for (const auto& [key, below] : keys.at("models").below) all.push_back(key);
    require(map, all);
    return text_of(writer.finish(map, "the numbers of the models, of dullcast's library"));
  }
  KeyTree record = keys.at(file + "." + any_name);
  record.below.erase("like");
  Json one = writer.map_shape(record, file);
  std::vector<std::string> all;
  for (const auto& [key, below] : record.below) {
    if (below.is_asked(AskedFor::uncertain_number)) all.push_back(key);
  }
  require(one, all);
  return text_of(writer.finish({{"type", "object"}, {"additionalProperties", one}},
                               file + " of dullcast's library, by name"));
}

std::string bits_schema(const KeyTree& keys, const KeyReference& reference, const Names& names) {
  SchemaWriter writer("scenario", reference, names);
  KeyTree bit = keys.at("bit");
  bit.below.erase("like");
  Json one = writer.map_shape(bit, "bit");
  require(one, {"diameter"});
  return text_of(writer.finish({{"type", "object"}, {"additionalProperties", one}},
                               "bits of dullcast's library, by name"));
}

std::string shop_schema(const KeyTree& scenario, const std::string& scenarios, const std::string& page,
                        const Names& names) {
  KeyTree keys = tree_of(asked_keys(Kind::shop_plan, scenarios));
  // Parts that its reader looks at as a scenario's; none is a key of a plan.
  for (const char* key : {"bit", "rocks", "fluids", "models"}) keys.below.erase(key);
  const KeyReference reference(page, "## Plans of a shop"), of_scenarios(page, "## Keys");
  SchemaWriter writer("shop", reference, names);
  Json map = writer.map_shape(keys, "");
  require(map, {"time_zone", "from", "to", "shop", "rigs", "designs", "bits", "holes"});
  SchemaWriter bits("scenario", of_scenarios, names);
  Json& properties = map["properties"];
  const Json bit = bits.map_shape(scenario.at("bit"), "bit");
  properties["designs"]["items"]["properties"]["bit"] = bit;
  Json& own = of_type(properties["bits"], "array")["items"]["properties"];
  for (auto& [key, shape] : own.items()) {
    if (key.starts_with("starting_") || key == "rebuilt") shape = bit["properties"][key];
  }
  Json whole = writer.finish(map, "a shop's plan for dullcast");
  const Json of_bits = bits.finish(Json::object(), "");
  for (const auto& [name, shape] : of_bits["definitions"].items()) whole["definitions"][name] = shape;
  return text_of(whole);
}

std::string shelf_schema(const std::string& scenarios, const std::string& page, const Names& names) {
  const KeyTree keys = tree_of(asked_keys(Kind::shelf, scenarios));
  KeyTree record = keys.at("shelf.*");
  std::erase_if(record.below, [](const auto& entry) { return entry.first.starts_with("cutter_"); });
  const KeyReference reference(page, "## Records of bits that came back");
  SchemaWriter writer("shelf", reference, names);
  Json one = writer.map_shape(record, "");
  one["patternProperties"] = {{"^cutter_[1-9][0-9]*$", words_shape()}};
  Json shared = one;
  require(one, {"bit"});
  const Json map = {
      {"type", "object"},
      {"properties", {{"title", words_shape()}, {"shared", shared}, {"shelf", list_shape(one)}}},
      {"additionalProperties", false},
      {"required", {"shelf"}}};
  return text_of(writer.finish(map, "a shelf of inspected bits for dullcast"));
}

std::string sweep_schema(const std::string& scenarios, const std::string& page, const Names& names) {
  const KeyReference reference(page, "## Plans of sweeps");
  SchemaWriter writer("sweep", reference, names);
  Json map = writer.map_shape(tree_of(asked_keys(Kind::sweep_plan, scenarios)), "");
  require(map, {"scenario"});
  return text_of(writer.finish(map, "a plan of a sweep for dullcast"));
}

}  // namespace

std::map<std::string, std::string> make_schemas(const std::string& scenarios) {
  const std::string page = input::read_text_file(scenarios + "/README.md");
  const KeyReference reference(page, "## Keys");
  const KeyTree keys = tree_of(asked_keys(Kind::scenario, scenarios));
  const Names names = names_in(scenarios);
  std::map<std::string, std::string> schemas;
  SchemaWriter writer("scenario", reference, names);
  Json map = scenario_map(writer, keys, names);
  require(map, {"bit", "fluid", "plan", "column"});
  schemas["scenario.json"] = text_of(writer.finish(map, "a scenario for dullcast"));
  Json learned = of_type(map["properties"]["learned"], "object");
  require(learned, {"inspected_bits"});
  schemas["learned.json"] = text_of(writer.finish(learned, "what dullcast learnt from inspected bits"));
  for (const char* file : {"rocks", "grades", "lots", "bodies", "fluids", "models"})
    schemas[std::string(file) + ".json"] = library_schema(file, keys, reference, names);
  schemas["bits.json"] = bits_schema(keys, reference, names);
  schemas["sweep_plan.json"] = sweep_schema(scenarios, page, names);
  schemas["shop_plan.json"] = shop_schema(keys, scenarios, page, names);
  schemas["shelf.json"] = shelf_schema(scenarios, page, names);
  return schemas;
}

}  // namespace dullcast::schema_maker
