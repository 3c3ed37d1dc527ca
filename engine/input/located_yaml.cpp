#include "engine/input/located_yaml.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace dullcast::input {

const YamlEntry* YamlValue::find(std::string_view key) const {
  for (const auto& entry : entries) {
    if (entry.key == key) return &entry;
  }
  return nullptr;
}

YamlEntry* YamlValue::find(std::string_view key) {
  for (auto& entry : entries) {
    if (entry.key == key) return &entry;
  }
  return nullptr;
}

std::string kind_name(const YamlValue& value) {
  switch (value.kind) {
    case YamlValue::Kind::nothing:
      return "nothing";
    case YamlValue::Kind::scalar:
      return "\"" + value.text + "\"";
    case YamlValue::Kind::list:
      return "a list";
    case YamlValue::Kind::map:
      return "a map of keys";
  }
  return "nothing";
}

std::string read_text_file(const std::string& path) {
  constexpr std::size_t most = 4'000'000;
  std::error_code no_matter;
  std::ifstream file(path, std::ios::binary);
  // A folder opens like a file on Linux.
  if (!file || std::filesystem::is_directory(path, no_matter)) {
    throw ScenarioErrors({path + ": cannot be read; check its name and that it is a readable file"});
  }
  std::ostringstream text;
  text << file.rdbuf();
  if (text.str().size() > most)
    throw ScenarioErrors({path + ": is larger than 4 MB; it cannot be a scenario"});
  return text.str();
}

namespace {

/// Builds the tree from yaml-cpp's events.
class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(const std::string& file, Problems& problems) : file_(file), problems_(problems) {}

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnAnchor(const YAML::Mark&, const std::string&) override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
    add_leaf(mark, YamlValue::Kind::nothing, "");
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    problems_.error(place(mark), path(), "is a YAML alias (*name); write the value out in full");
    add_leaf(mark, YamlValue::Kind::nothing, "");
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                const std::string& value) override {
    refuse_tag(mark, tag);
    // Plain scalars come with the tag "?", quoted ones with "!".
    const bool null = tag == "?" && (value == "~" || value == "null" || value.empty());
    add_leaf(mark, null ? YamlValue::Kind::nothing : YamlValue::Kind::scalar, value);
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {
    open(mark, tag, YamlValue::Kind::list);
  }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                  YAML::EmitterStyle::value) override {
    open(mark, tag, YamlValue::Kind::map);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapEnd() override { close(); }

  YamlValue finish() { return std::move(root_); }

 private:
  struct Open {
    YamlValue value;
    bool has_key = false;  // maps: a key is waiting for its value
    std::string key;
    scenario::Location key_location;
  };

  scenario::Location place(const YAML::Mark& mark) const { return {file_, mark.line + 1, mark.column + 1}; }

  std::string path() const {
    std::string result;
    for (const auto& level : stack_) {
      if (level.value.is_list())
        result += (result.empty() ? "" : ".") + std::to_string(level.value.items.size());
      if (level.value.is_map() && level.has_key) result += (result.empty() ? "" : ".") + level.key;
    }
    return result;
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if (!tag.empty() && tag != "?" && tag != "!") {
      problems_.error(place(mark), path(), "has the YAML tag " + tag + "; leave it out");
    }
  }

  void open(const YAML::Mark& mark, const std::string& tag, YamlValue::Kind kind) {
    refuse_tag(mark, tag);
    Open level;
    level.value.kind = kind;
    level.value.location = place(mark);
    stack_.push_back(std::move(level));
  }

  void close() {
    Open level = std::move(stack_.back());
    stack_.pop_back();
    add(std::move(level.value));
  }

  void add_leaf(const YAML::Mark& mark, YamlValue::Kind kind, const std::string& text) {
    YamlValue value;
    value.kind = kind;
    value.text = text;
    value.location = place(mark);
    add(std::move(value));
  }

  void add(YamlValue value) {
    if (stack_.empty()) {
      root_ = std::move(value);
      return;
    }
    Open& top = stack_.back();
    if (top.value.is_list()) {
      top.value.items.push_back(std::move(value));
    } else if (!top.has_key) {
      if (!value.is_scalar()) {
        problems_.error(value.location, path(),
                        "has " + kind_name(value) + " for a key; a key is one plain word");
      }
      top.has_key = true;
      top.key = value.text;
      top.key_location = value.location;
    } else {
      if (const auto* first = top.value.find(top.key)) {
        problems_.error(
            top.key_location, path(),
            "is given twice, first on line " + std::to_string(first->location.line) + "; keep one of them");
      } else {
        if (value.location.line == 0) value.location = top.key_location;
        top.value.entries.push_back({top.key, top.key_location, std::move(value)});
      }
      top.has_key = false;
    }
  }

  std::string file_;
  Problems& problems_;
  std::vector<Open> stack_;
  YamlValue root_;
};

}  // namespace

YamlValue parse_yaml(const std::string& text, const std::string& file, Problems& problems) {
  TreeBuilder builder(file, problems);
  if (text.find('\0') != std::string::npos) {
    problems.error({file, 1, 1}, "", "is no text file: it holds zero bytes");
    return {};
  }
  try {
    std::istringstream stream(text);
    YAML::Parser parser(stream);
    parser.HandleNextDocument(builder);
    YamlValue root = builder.finish();
    Problems beyond;
    TreeBuilder rest(file, beyond);
    if (parser.HandleNextDocument(rest)) {
      problems.error(rest.finish().location, "", "starts a second YAML document; keep one to a file");
    }
    return root;
  } catch (const YAML::Exception& failure) {
    const bool known = !failure.mark.is_null();
    problems.error(
        {file, known ? failure.mark.line + 1 : 1, known ? failure.mark.column + 1 : 1}, "",
        "is not YAML here: " + failure.msg +
            "; check the indentation, brackets, quotes and colons on this line and the one before");
    return {};  // what stands before the place is too broken to judge
  }
}

std::string yaml_quoted(std::string_view text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      result += '\\';
      result += c;
    } else if (c == '\n') {
      result += "\\n";
    } else if (c == '\t') {
      result += "\\t";
    } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
      char buffer[8];
      std::snprintf(buffer, sizeof buffer, "\\x%02x", static_cast<unsigned>(static_cast<unsigned char>(c)));
      result += buffer;
    } else {
      result += c;
    }
  }
  return result + "\"";
}

}  // namespace dullcast::input
