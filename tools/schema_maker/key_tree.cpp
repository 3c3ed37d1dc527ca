#include "tools/schema_maker/key_tree.hpp"

#include <algorithm>

#include "engine/input/yaml_paths.hpp"

namespace dullcast::schema_maker {

namespace {

/// Maps whose keys are names that people give.
bool holds_names(const std::string& key) {
  constexpr const char* keys[] = {"rocks", "grades", "lots", "bodies", "fluids", "bits", "cutter_kinds"};
  return std::find(std::begin(keys), std::end(keys), key) != std::end(keys);
}

}  // namespace

bool KeyTree::is_asked(input::AskedFor kind) const {
  return std::any_of(asked.begin(), asked.end(),
                     [&](const input::KeyAsked& one) { return one.kind == kind; });
}

const KeyTree& KeyTree::at(const std::string& path) const {
  const KeyTree* here = this;
  for (const std::string& step : input::steps_of_path(path)) here = &here->below.at(step);
  return *here;
}

KeyTree tree_of(const AskedKeys& keys) {
  KeyTree root;
  for (const auto& [path, asked] : keys) {
    KeyTree* here = &root;
    std::string before;
    for (const std::string& step : input::steps_of_path(path)) {
      before = holds_names(before) && step != any_place ? any_name : step;
      here = &here->below[before];
    }
    for (const input::KeyAsked& one : asked) {
      if (std::find(here->asked.begin(), here->asked.end(), one) == here->asked.end())
        here->asked.push_back(one);
    }
  }
  return root;
}

}  // namespace dullcast::schema_maker
