#include "tools/schema_maker/keys_of_kinds.hpp"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "engine/input/scenario_reader.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/input/text_file.hpp"
#include "engine/input/text_kind.hpp"
#include "engine/shop/shop_plan_reader.hpp"
#include "engine/sweep/sweep_plan_reader.hpp"
#include "tools/schema_maker/leading_texts.hpp"

namespace dullcast::schema_maker {

namespace {

namespace fs = std::filesystem;

struct Text {
  std::string file, text;
};

bool is_of(Kind kind, const std::string& text, const std::string& file) {
  switch (input::kind_of_text(input::ScenarioReader::parse(text, file))) {
    case input::TextKind::scenario:
      return kind == Kind::scenario;
    case input::TextKind::sweep_plan:
      return kind == Kind::sweep_plan;
    case input::TextKind::shop_plan:
      return kind == Kind::shop_plan;
    case input::TextKind::shelf:
      return kind == Kind::shelf;
    case input::TextKind::learned:
      break;  // made of a scenario's parts
  }
  return false;
}

std::vector<Text> texts_of(Kind kind, const std::string& folder) {
  std::vector<Text> texts;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string file = entry.path().string();
    std::string text = input::read_text_file(file);
    if (is_of(kind, text, file)) texts.push_back({file, std::move(text)});
  }
  if (texts.empty() && kind != Kind::shelf)
    throw std::runtime_error(folder + " holds none of the scenarios and plans that come with the program");
  std::sort(texts.begin(), texts.end(), [](const Text& a, const Text& b) { return a.file < b.file; });
  for (const std::string& text : leading_texts(kind)) texts.push_back({folder + "/leading.yaml", text});
  return texts;
}

void read(Kind kind, const Text& text, const input::ScenarioReader& reader, const std::string& folder) {
  std::vector<input::Warning> warnings;
  switch (kind) {
    case Kind::scenario:
      reader.read_text(text.text, text.file, {}, warnings);
      break;
    case Kind::sweep_plan: {
      sweep::SweepTexts texts;
      texts.plan = text.text;
      texts.plan_file = text.file;
      const sweep::PlanNames names = sweep::names_in_plan(text.text, text.file);
      texts.scenario_file = names.scenario;
      texts.scenario = input::read_text_file(names.scenario);
      texts.library = input::read_library_texts(folder + "/library");
      sweep::read_sweep_plan(texts, reader, warnings);
      break;
    }
    case Kind::shop_plan:
      shop::read_shop_plan_text(text.text, text.file, reader, warnings);
      break;
    case Kind::shelf:
      input::read_shelf_text(text.text, text.file, reader, warnings);
      break;
  }
}

}  // namespace

AskedKeys asked_keys(Kind kind, const std::string& scenarios) {
  input::ScenarioReader reader(scenarios + "/library");
  AskedKeys all;
  for (const Text& text : texts_of(kind, scenarios)) {
    input::KeysAsked keys(text.file);
    reader.tell_keys(&keys);
    try {
      read(kind, text, reader, scenarios);
    } catch (const input::ScenarioErrors&) {
      // Asked for all the same: a text that leads everywhere need not hold together.
    }
    for (const auto& [path, asked] : keys.all()) {
      std::vector<input::KeyAsked>& here = all[path];
      for (const input::KeyAsked& one : asked) {
        if (std::find(here.begin(), here.end(), one) == here.end()) here.push_back(one);
      }
    }
  }
  return all;
}

}  // namespace dullcast::schema_maker
