#include "tools/schema_maker/make_schemas.hpp"

#include <algorithm>
#include <set>

#include "engine/input/text_file.hpp"
#include "tools/schema_maker/key_reference.hpp"
#include "tools/schema_maker/key_tree.hpp"
#include "tools/schema_maker/value_shapes.hpp"

namespace dullcast::schema_maker {

namespace {

using input::AskedFor;

/// Writes the schema of one file. Shapes of numbers, which are many and few kinds, stand once, among its
/// definitions.
class Writer {
 public:
  Writer(std::string kind, const KeyReference& reference, bool complete = false)
      : kind_(std::move(kind)), reference_(reference), complete_(complete) {}

  /// The schema of what stands at a path, of which the path within the schema's kind is the end.
  Json shape(const KeyTree& tree, const std::string& path) {
    if (auto given = shape_by_hand(kind_ + ":" + path)) return *given;
    std::vector<Json> shapes;
    for (const input::KeyAsked& one : tree.asked) add(shapes, one);
    const bool listed = tree.is_asked(AskedFor::list) || tree.below.contains(any_place);
    const bool mapped = tree.is_asked(AskedFor::map) ||
                        (!listed && !tree.below.empty() && !tree.is_asked(AskedFor::uncertain_number));
    if (listed) {
      const auto items = tree.below.find(any_place);
      shapes.push_back(
          list_shape(items == tree.below.end() ? Json::object() : shape(items->second, path + ".*")));
      // In place of a list that the readers look at themselves a table may be named.
      if (!tree.is_asked(AskedFor::list)) shapes.push_back({{"type", "string"}});
    }
    if (mapped && !tree.is_asked(AskedFor::uncertain_number)) shapes.push_back(map_shape(tree, path));
    return shapes.empty() ? Json::object() : any_of(std::move(shapes));
  }

  Json map_shape(const KeyTree& tree, const std::string& path) {
    Json map = {{"type", "object"}};
    Json properties = Json::object();
    for (const auto& [key, below] : tree.below) {
      const std::string place = path.empty() ? key : path + "." + key;
      if (key == any_name) {
        map["additionalProperties"] = shape(below, place);
        continue;
      }
      Json property = shape(below, place);
      // What stands beside a reference counts for nothing in draft 7.
      if (property.contains("$ref")) property = {{"allOf", Json::array({property})}};
      const std::string words = words_on(place, below);
      if (!words.empty()) property["description"] = words;
      properties[key] = property;
    }
    if (!properties.empty()) map["properties"] = properties;
    if (!map.contains("additionalProperties")) map["additionalProperties"] = false;
    return map;
  }

  Json finish(Json schema, const std::string& title) {
    Json whole = {{"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", title}};
    whole.update(schema);
    if (!definitions_.empty()) whole["definitions"] = definitions_;
    return whole;
  }

 private:
  void add(std::vector<Json>& shapes, const input::KeyAsked& one) {
    switch (one.kind) {
      case AskedFor::number:
        shapes.push_back(defined(one, "", number_shape(*one.wanted, one.range)));
        break;
      case AskedFor::uncertain_number:
        shapes.push_back(defined(one, "uncertain_", uncertain_shape(*one.wanted, one.range, complete_)));
        break;
      case AskedFor::whole_number:
        shapes.push_back(whole_number_shape(one.least, one.most));
        break;
      case AskedFor::words:
        shapes.push_back(words_shape());
        break;
      case AskedFor::one_of:
        shapes.push_back(one_of_shape(one.choices));
        break;
      case AskedFor::anything:
      case AskedFor::map:
      case AskedFor::list:
        break;
    }
  }

  Json defined(const input::KeyAsked& one, const std::string& before, Json shape) {
    std::string name = before + one.wanted->name + "_" + one.range.words;
    std::replace_if(
        name.begin(), name.end(), [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); }, '_');
    definitions_[name] = std::move(shape);
    return {{"$ref", "#/definitions/" + name}};
  }

  std::string words_on(const std::string& path, const KeyTree& tree) const {
    std::string words = reference_.words_on(path);
    for (const input::KeyAsked& one : tree.asked) {
      if (one.kind != AskedFor::number && one.kind != AskedFor::uncertain_number) continue;
      const Json shape = number_shape(*one.wanted, one.range);
      words += (words.empty() ? "" : " ") + shape["description"].get<std::string>();
      break;
    }
    return words;
  }

  std::string kind_;
  const KeyReference& reference_;
  bool complete_;
  Json definitions_ = Json::object();
};

void require(Json& map, std::vector<std::string> keys) {
  map["required"] = std::move(keys);
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

Json scenario_map(Writer& writer, const KeyTree& keys) {
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
  }
  return map;
}

std::string library_schema(const std::string& file, const KeyTree& keys, const KeyReference& reference) {
  Writer writer("library", reference, true);
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

std::string bits_schema(const KeyTree& keys, const KeyReference& reference) {
  Writer writer("scenario", reference);
  KeyTree bit = keys.at("bit");
  bit.below.erase("like");
  Json one = writer.map_shape(bit, "bit");
  require(one, {"diameter"});
  return text_of(writer.finish({{"type", "object"}, {"additionalProperties", one}},
                               "bits of dullcast's library, by name"));
}

std::string shop_schema(const KeyTree& scenario, const std::string& scenarios, const std::string& page) {
  KeyTree keys = tree_of(asked_keys(Kind::shop_plan, scenarios));
  // Parts that its reader looks at as a scenario's; none is a key of a plan.
  for (const char* key : {"bit", "rocks", "fluids", "models"}) keys.below.erase(key);
  const KeyReference reference(page, "## Plans of a shop"), of_scenarios(page, "## Keys");
  Writer writer("shop", reference);
  Json map = writer.map_shape(keys, "");
  require(map, {"time_zone", "from", "to", "shop", "rigs", "designs", "bits", "holes"});
  Writer bits("scenario", of_scenarios);
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

std::string shelf_schema(const std::string& scenarios, const std::string& page) {
  const KeyTree keys = tree_of(asked_keys(Kind::shelf, scenarios));
  KeyTree record = keys.at("shelf.*");
  std::erase_if(record.below, [](const auto& entry) { return entry.first.starts_with("cutter_"); });
  const KeyReference reference(page, "## Records of bits that came back");
  Writer writer("shelf", reference);
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

std::string sweep_schema(const std::string& scenarios, const std::string& page) {
  const KeyReference reference(page, "## Plans of sweeps");
  Writer writer("sweep", reference);
  Json map = writer.map_shape(tree_of(asked_keys(Kind::sweep_plan, scenarios)), "");
  require(map, {"scenario"});
  return text_of(writer.finish(map, "a plan of a sweep for dullcast"));
}

}  // namespace

std::map<std::string, std::string> make_schemas(const std::string& scenarios) {
  const std::string page = input::read_text_file(scenarios + "/README.md");
  const KeyReference reference(page, "## Keys");
  const KeyTree keys = tree_of(asked_keys(Kind::scenario, scenarios));
  std::map<std::string, std::string> schemas;
  Writer writer("scenario", reference);
  Json map = scenario_map(writer, keys);
  require(map, {"bit", "fluid", "plan", "column"});
  schemas["scenario.json"] = text_of(writer.finish(map, "a scenario for dullcast"));
  Json learned = of_type(map["properties"]["learned"], "object");
  require(learned, {"inspected_bits"});
  schemas["learned.json"] = text_of(writer.finish(learned, "what dullcast learnt from inspected bits"));
  for (const char* file : {"rocks", "grades", "lots", "bodies", "fluids", "models"})
    schemas[std::string(file) + ".json"] = library_schema(file, keys, reference);
  schemas["bits.json"] = bits_schema(keys, reference);
  schemas["sweep_plan.json"] = sweep_schema(scenarios, page);
  schemas["shop_plan.json"] = shop_schema(keys, scenarios, page);
  schemas["shelf.json"] = shelf_schema(scenarios, page);
  return schemas;
}

}  // namespace dullcast::schema_maker
