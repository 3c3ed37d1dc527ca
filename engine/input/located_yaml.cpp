#include "engine/input/located_yaml.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <cstdio>
#include <map>
#include <sstream>

#include "engine/base/plain_text.hpp"

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

std::string quoted_text(std::string_view text) {
  return "\"" + shortened(text, longest_quoted) + "\"";
}

std::string kind_name(const YamlValue& value) {
  switch (value.kind) {
    case YamlValue::Kind::nothing:
      return "nothing";
    case YamlValue::Kind::scalar:
      return quoted_text(value.text);
    case YamlValue::Kind::list:
      return "a list";
    case YamlValue::Kind::map:
      return "a map of keys";
  }
  return "nothing";
}

namespace {

// Many times what any scenario, plan or library holds, and few enough that none takes seconds to refuse.
constexpr std::size_t most_values = 200'000, most_keys = 10'000, most_items = 20'000, most_levels = 50;
constexpr std::size_t longest_key = 200;

/// Thrown to stop yaml-cpp when no more of a text is wanted; what is wrong has been told.
struct Stopped {};

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
    // yaml-cpp 0.7 turns these two escapes into single bytes that are no UTF-8.
    if (base::first_not_utf8(value) != std::string::npos)
      problems_.error(place(mark), path(), "holds \\_ or \\N in its quotes; write the character itself");
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
    std::map<std::string, int, std::less<>> lines;  // of the keys met, by key
  };

  /// Ends the reading of a text that holds too much of something.
  [[noreturn]] void stop(const scenario::Location& place, const std::string& text) {
    problems_.error(place, path(), text);
    throw Stopped{};
  }

  void count(const YAML::Mark& mark) {
    if (++values_ > most_values)
      stop(place(mark), "is the value that makes more than " + std::to_string(most_values) +
                            ", and no scenario or plan needs as many; cut the file down");
  }

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
    count(mark);
    if (stack_.size() >= most_levels)
      stop(place(mark), "lies more than " + std::to_string(most_levels) +
                            " levels deep; check the brackets and the indentation");
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
    count(mark);
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
      if (top.value.items.size() >= most_items)
        stop(value.location, "makes a list of more than " + std::to_string(most_items) +
                                 " items, and no scenario or plan needs as many; cut it down");
      top.value.items.push_back(std::move(value));
    } else if (!top.has_key) {
      take_key(top, value);
    } else {
      const auto [first, is_new] = top.lines.try_emplace(top.key, top.key_location.line);
      if (!is_new) {
        problems_.error(
            top.key_location, path(),
            "is given twice, first on line " + std::to_string(first->second) + "; keep one of them");
      } else {
        if (top.value.entries.size() >= most_keys)
          stop(top.key_location,
               "makes more than " + std::to_string(most_keys) +
                   " keys on one level, and no scenario or plan needs as many; cut them down");
        if (value.location.line == 0) value.location = top.key_location;
        top.value.entries.push_back({top.key, top.key_location, std::move(value)});
      }
      top.has_key = false;
    }
  }

  void take_key(Open& top, const YamlValue& value) {
    std::string wrong;
    if (!value.is_scalar()) wrong = "has " + kind_name(value) + " for a key; a key is one plain word";
    if (value.text.size() > longest_key)
      wrong =
          "has " + quoted_text(value.text) + " for a key; no key is that long: check its colon and quotes";
    if (!base::is_plain(value.text))
      wrong = "has " + quoted_text(value.text) +
              " for a key, which holds a control character or an end of line; a key is one plain word";
    if (!wrong.empty()) problems_.error(value.location, path(), wrong);
    top.has_key = true;
    top.key = shortened(value.text, longest_key);
    top.key_location = value.location;
  }

  std::string file_;
  Problems& problems_;
  std::vector<Open> stack_;
  std::size_t values_ = 0;
  YamlValue root_;
};

}  // namespace

bool check_utf8(std::string_view text, const std::string& file, Problems& problems) {
  const std::size_t wrong = base::first_not_utf8(text);
  if (wrong == std::string_view::npos) return true;
  const std::string_view before = text.substr(0, wrong);
  const std::size_t line_end = before.rfind('\n');
  const std::string_view line = line_end == before.npos ? before : before.substr(line_end + 1);
  int column = 1;  // in characters
  for (std::size_t at = 0; at < line.size(); ++at) column += base::inside_character(line, at) ? 0 : 1;
  problems.error({file, 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n')), column}, "",
                 "is not UTF-8 text here; save the file as UTF-8");
  return false;
}

YamlValue parse_yaml(const std::string& text, const std::string& file, Problems& problems) {
  TreeBuilder builder(file, problems);
  if (!check_utf8(text, file, problems)) return {};
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
  } catch (const Stopped&) {
    return {};
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
