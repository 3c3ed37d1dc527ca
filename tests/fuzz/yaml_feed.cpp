#include <algorithm>

#include "engine/input/located_yaml.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {
namespace {

/// Every place of a tree lies in the text; every scalar is the same when it is quoted and read again.
void must_hold(const input::YamlValue& value, int lines, int& scalars) {
  if (value.location.line > lines) throw Fault("a place past the text's last line");
  if (value.is_scalar() && ++scalars <= 20) {
    input::Problems problems;
    const input::YamlValue again = input::parse_yaml(input::yaml_quoted(value.text), "again.yaml", problems);
    if (problems.any_error() || again.text != value.text) throw Fault("a scalar is another when quoted");
  }
  for (const input::YamlValue& item : value.items) must_hold(item, lines, scalars);
  for (const input::YamlEntry& entry : value.entries) must_hold(entry.value, lines, scalars);
}

}  // namespace

void take_yaml(const std::string& bytes) {
  was_read([&](std::vector<input::Warning>&) {
    input::Problems problems;
    const input::YamlValue root = input::parse_yaml(bytes, "fed.yaml", problems);
    problems.throw_if_any();
    int scalars = 0;
    must_hold(root,
              2 + static_cast<int>(std::count(bytes.begin(), bytes.end(), '\n')) +
                  static_cast<int>(std::count(bytes.begin(), bytes.end(), '\r')),
              scalars);
  });
}

}  // namespace dullcast::fuzz
