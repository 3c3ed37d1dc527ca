#include "tools/schema_maker/schema_writer.hpp"

#include <algorithm>

namespace dullcast::schema_maker {

using input::AskedFor;

Json SchemaWriter::shape(const KeyTree& tree, const std::string& path) {
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

Json SchemaWriter::map_shape(const KeyTree& tree, const std::string& path) {
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
    if (const auto* names = names_for(place); names && below.is_asked(AskedFor::words))
      property["examples"] = *names;
    properties[key] = property;
  }
  if (!properties.empty()) map["properties"] = properties;
  if (!map.contains("additionalProperties")) map["additionalProperties"] = false;
  return map;
}

Json SchemaWriter::finish(const Json& schema, const std::string& title) {
  Json whole = {{"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", title}};
  whole.update(schema);
  if (!definitions_.empty()) whole["definitions"] = definitions_;
  return whole;
}

void SchemaWriter::add(std::vector<Json>& shapes, const input::KeyAsked& one) {
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

Json SchemaWriter::defined(const input::KeyAsked& one, const std::string& before, Json shape) {
  std::string name = before + one.wanted->name + "_" + one.range.words;
  std::replace_if(
      name.begin(), name.end(), [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); }, '_');
  definitions_[name] = std::move(shape);
  return {{"$ref", "#/definitions/" + name}};
}

/// For editors to offer: a scenario may bring names of its own.
const std::vector<std::string>* SchemaWriter::names_for(const std::string& place) const {
  const std::string key = place.substr(place.rfind('.') + 1);
  const auto found = names_.find(place == "bit.like" ? place : key);
  return found == names_.end() ? nullptr : &found->second;
}

std::string SchemaWriter::words_on(const std::string& path, const KeyTree& tree) const {
  std::string words = reference_.words_on(path);
  for (const input::KeyAsked& one : tree.asked) {
    if (one.kind != AskedFor::number && one.kind != AskedFor::uncertain_number) continue;
    const Json shape = number_shape(*one.wanted, one.range);
    words += (words.empty() ? "" : " ") + shape["description"].get<std::string>();
    break;
  }
  return words;
}

}  // namespace dullcast::schema_maker
