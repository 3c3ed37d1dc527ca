#include <gtest/gtest.h>

#include <filesystem>
#include <set>
#include <sstream>

#include "engine/input/scenario_reader.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/input/text_file.hpp"
#include "engine/shop/shop_plan_reader.hpp"
#include "engine/sweep/sweep_plan_reader.hpp"
#include "tools/schema_maker/key_tree.hpp"
#include "tools/schema_maker/leading_texts.hpp"
#include "tools/schema_maker/make_schemas.hpp"
#include "tools/schema_maker/value_shapes.hpp"

// The shipped schemas are those of the readers, key by key: what a schema has, and what the reader's own
// message lists when it meets a key of no meaning.
namespace dullcast::schema_maker {
namespace {

namespace fs = std::filesystem;
using Keys = std::set<std::string>;

const std::string scenarios = std::string(DULLCAST_SOURCE_DIR) + "/scenarios";
const char* const unknown = "xxxxxxxxxxxx";

std::string shipped_schema(const std::string& name) {
  return input::read_text_file(scenarios + "/schemas/" + name);
}

/// A tree as YAML in one line.
std::string text_of(const input::YamlValue& value) {
  std::string text;
  if (value.is_map()) {
    for (const input::YamlEntry& entry : value.entries)
      text += (text.empty() ? "" : ", ") + Json(entry.key).dump() + ": " + text_of(entry.value);
    return "{" + text + "}";
  }
  if (value.is_list()) {
    for (const input::YamlValue& item : value.items) text += (text.empty() ? "" : ", ") + text_of(item);
    return "[" + text + "]";
  }
  return value.is_nothing() ? "" : Json(value.text).dump();
}

/// The errors of reading a text of a kind.
std::vector<std::string> errors_of(Kind kind, const std::string& text, const std::string& file) {
  static const input::ScenarioReader reader(scenarios + "/library");
  std::vector<input::Warning> warnings;
  try {
    if (kind == Kind::scenario) reader.read_text(text, file, {}, warnings);
    if (kind == Kind::shop_plan) shop::read_shop_plan_text(text, file, reader, warnings);
    if (kind == Kind::shelf) input::read_shelf_text(text, file, reader, warnings);
    if (kind == Kind::sweep_plan) {
      sweep::SweepTexts texts{text, file, "", "", "", "", {}};
      texts.scenario_file = sweep::names_in_plan(text, file).scenario;
      texts.scenario = input::read_text_file(texts.scenario_file);
      sweep::read_sweep_plan(texts, reader, warnings);
    }
  } catch (const input::ScenarioErrors& errors) {
    return errors.messages();
  }
  return {};
}

/// The keys that the reader lists when it meets one that it does not know; empty where it meets none.
Keys listed_keys(const std::vector<std::string>& errors) {
  const std::string before = std::string(unknown) + ": is not a key here; the keys are ";
  for (const std::string& error : errors) {
    const auto at = error.find(before);
    if (at == std::string::npos) continue;
    std::string list = error.substr(at + before.size());
    Keys keys;
    for (const std::string mark : {" or ", ", "})
      for (auto found = list.find(mark); found != std::string::npos; found = list.find(mark))
        list.replace(found, mark.size(), "\n");
    std::istringstream lines(list);
    for (std::string key; std::getline(lines, key);) keys.insert(key);
    return keys;
  }
  return {};
}

bool holds_names(const std::string& key) {
  return Keys{"rocks", "grades", "lots", "bodies", "fluids", "bits", "cutter_kinds"}.contains(key);
}

/// The maps within a text, each with a key of no meaning put into it, by their paths.
class Probe {
 public:
  Probe(Kind kind, std::string file) : kind_(kind), file_(std::move(file)) {}

  void walk(input::YamlValue& root, input::YamlValue& here, const std::string& path, const std::string& key) {
    if (here.is_map()) {
      here.entries.push_back({unknown, {}, {}});
      input::YamlValue one;
      input::Problems problems;
      one = input::parse_yaml("1", "one", problems);
      here.entries.back().value = one;
      const Keys keys = listed_keys(errors_of(kind_, text_of(root), file_));
      here.entries.pop_back();
      found_[path].insert(keys.begin(), keys.end());
      for (input::YamlEntry& entry : here.entries) {
        const std::string step = holds_names(key) ? "NAME" : entry.key;
        walk(root, entry.value, path.empty() ? step : path + "." + step, step);
      }
    }
    if (!here.is_list()) return;
    for (input::YamlValue& item : here.items) walk(root, item, path + ".*", "*");
  }

  const std::map<std::string, Keys>& found() const { return found_; }

 private:
  Kind kind_;
  std::string file_;
  std::map<std::string, Keys> found_;
};

/// The keys of every map of a schema, by its path; uncertain numbers left out.
class SchemaKeys {
 public:
  explicit SchemaKeys(const Json& schema) : schema_(schema) { walk(schema, ""); }
  const std::map<std::string, Keys>& found() const { return found_; }

 private:
  void walk(const Json& shape, const std::string& path) {
    for (const char* several : {"anyOf", "allOf"}) {
      if (!shape.contains(several)) continue;
      for (const Json& one : shape[several]) walk(one, path);
    }
    if (shape.contains("$ref")) {
      const std::string name = shape["$ref"].get<std::string>().substr(std::string("#/definitions/").size());
      if (!name.starts_with("uncertain_")) walk(schema_["definitions"][name], path);
    }
    if (shape.contains("items")) walk(shape["items"], path + ".*");
    const auto step = [&](const std::string& key) { return path.empty() ? key : path + "." + key; };
    if (shape.contains("properties")) {
      for (const auto& [key, below] : shape["properties"].items()) {
        found_[path].insert(key);
        walk(below, step(key));
      }
    }
    if (shape.contains("additionalProperties") && shape["additionalProperties"].is_object())
      walk(shape["additionalProperties"], step("NAME"));
  }

  const Json& schema_;
  std::map<std::string, Keys> found_;
};

/// The keys that readers list in all texts of a kind, by paths.
std::map<std::string, Keys> keys_at_the_door(Kind kind, const std::vector<std::string>& files) {
  std::map<std::string, Keys> all;
  std::vector<std::pair<std::string, std::string>> texts;
  for (const std::string& file : files)
    texts.emplace_back(scenarios + "/" + file, input::read_text_file(scenarios + "/" + file));
  for (const std::string& text : leading_texts(kind)) texts.emplace_back(scenarios + "/leading.yaml", text);
  for (const auto& [file, text] : texts) {
    input::Problems problems;
    input::YamlValue tree = input::parse_yaml(text, file, problems);
    Probe probe(kind, file);
    probe.walk(tree, tree, "", "");
    for (const auto& [path, keys] : probe.found()) all[path].insert(keys.begin(), keys.end());
  }
  // Where names are given, values are uncertain numbers, or nothing is a key, there is no list.
  std::erase_if(all, [](const auto& one) { return one.second.empty() || one.second.contains("central"); });
  return all;
}

void expect_same(const std::map<std::string, Keys>& schema, const std::map<std::string, Keys>& door) {
  for (const auto& [path, keys] : door) {
    const auto found = schema.find(path);
    ASSERT_NE(found, schema.end()) << "the schema has no map at " << path;
    for (const std::string& key : keys)
      EXPECT_TRUE(found->second.contains(key)) << path << ": the schema lacks " << key;
    for (const std::string& key : found->second)
      EXPECT_TRUE(keys.contains(key)) << path << ": the reader lacks " << key;
  }
}

/// Maps of a schema that no text led to.
Keys not_met(const std::map<std::string, Keys>& schema, const std::map<std::string, Keys>& door) {
  Keys paths;
  for (const auto& [path, keys] : schema) {
    if (!door.contains(path)) paths.insert(path);
  }
  return paths;
}

TEST(Schemas, ShippedAreThoseOfTheReaders) {
  const auto made = make_schemas(scenarios);
  EXPECT_EQ(made.size(), 12u);
  for (const auto& [name, text] : made)
    EXPECT_TRUE(shipped_schema(name) == text)
        << name << " is not what the readers ask for; run build/make-schemas";
  for (const fs::directory_entry& entry : fs::directory_iterator(scenarios + "/schemas"))
    EXPECT_TRUE(made.contains(entry.path().filename().string())) << entry.path();
}

TEST(Schemas, HaveTheScenariosKeysAndNoOthers) {
  const SchemaKeys schema(Json::parse(shipped_schema("scenario.json")));
  const auto door = keys_at_the_door(
      Kind::scenario, {"rebuilt_bit.yaml", "field_of_forty_wells.yaml", "after_an_inspection.yaml"});
  EXPECT_GE(door.size(), 40u);
  expect_same(schema.found(), door);
  // A library's bits are read where a scenario takes one, and have its keys.
  Keys open = not_met(schema.found(), door);
  std::erase_if(open, [](const std::string& path) {
    return path.starts_with("bits.NAME") || path.starts_with("learned.bits.NAME");
  });
  EXPECT_EQ(open, Keys{});
}

TEST(Schemas, HaveThePlansKeysAndNoOthers) {
  const SchemaKeys sweep(Json::parse(shipped_schema("sweep_plan.json")));
  const auto at_sweeps = keys_at_the_door(Kind::sweep_plan, {});
  EXPECT_GE(at_sweeps.size(), 9u);
  expect_same(sweep.found(), at_sweeps);
  EXPECT_EQ(not_met(sweep.found(), at_sweeps), Keys{});
  const SchemaKeys shop(Json::parse(shipped_schema("shop_plan.json")));
  auto at_shops = keys_at_the_door(Kind::shop_plan, {});
  EXPECT_GE(at_shops.size(), 11u);
  expect_same(shop.found(), at_shops);
}

TEST(Schemas, HaveTheKeysOfShelvesAndOfTheLibrary) {
  const SchemaKeys shelf(Json::parse(shipped_schema("shelf.json")));
  auto at_shelves = keys_at_the_door(Kind::shelf, {});
  // One for each cutter, of which the schema knows the pattern.
  for (const char* record : {"shelf.*", "shared"})
    std::erase_if(at_shelves[record], [](const std::string& key) { return key.starts_with("cutter_"); });
  EXPECT_GE(at_shelves["shelf.*"].size(), 25u);
  expect_same(shelf.found(), at_shelves);

  for (const char* file : {"rocks", "grades", "lots", "bodies", "fluids", "models"}) {
    input::LibraryTexts texts = input::read_library_texts(scenarios + "/library");
    std::string& text = texts.files[std::string(file) + ".yaml"];
    input::Problems problems;
    input::YamlValue tree = input::parse_yaml(text, file, problems);
    input::YamlValue& map = file == std::string("models") ? tree : tree.entries.front().value;
    map.entries.push_back({unknown, {}, input::parse_yaml("1", "one", problems)});
    text = text_of(tree);
    Keys listed;
    try {
      const input::ScenarioReader reader(texts);
    } catch (const input::ScenarioErrors& errors) {
      listed = listed_keys(errors.messages());
    }
    const Json schema = Json::parse(shipped_schema(std::string(file) + ".json"));
    const Json& record = schema.contains("properties") ? schema : schema["additionalProperties"];
    Keys keys;
    for (const auto& [key, shape] : record["properties"].items()) keys.insert(key);
    EXPECT_EQ(keys, listed) << file;
  }
}

TEST(Schemas, ShapesByHandAreOfKeysThatReadersAskFor) {
  const std::map<std::string, Kind> kinds = {{"scenario", Kind::scenario},
                                             {"sweep", Kind::sweep_plan},
                                             {"shop", Kind::shop_plan},
                                             {"shelf", Kind::shelf}};
  std::map<std::string, KeyTree> trees;
  for (const auto& [name, kind] : kinds) trees[name] = tree_of(asked_keys(kind, scenarios));
  for (const std::string& place : places_by_hand()) {
    const auto colon = place.find(':');
    const std::string kind = place.substr(0, colon);
    const std::string path = (kind == "shelf" ? "shelf.*." : "") + place.substr(colon + 1);
    EXPECT_NO_THROW(trees.at(kind).at(path)) << place;
  }
}

TEST(Schemas, WhatTheyRequireIsRequired) {
  const std::string well = input::read_text_file(scenarios + "/field_of_forty_wells.yaml");
  const Json schema = Json::parse(shipped_schema("scenario.json"));
  EXPECT_EQ(schema["required"].size(), 4u);
  for (const Json& key : schema["required"]) {
    input::Problems problems;
    input::YamlValue tree = input::parse_yaml(well, "well.yaml", problems);
    std::erase_if(tree.entries, [&](const input::YamlEntry& entry) { return entry.key == key; });
    EXPECT_FALSE(errors_of(Kind::scenario, text_of(tree), "well.yaml").empty()) << key;
  }
}

}  // namespace
}  // namespace dullcast::schema_maker
