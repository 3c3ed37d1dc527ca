#pragma once

#include <stdexcept>
#include <string>
#include <vector>

/// Readers of what people name, as functions of bytes: for libFuzzer (fuzz_main.cpp), and for the test that
/// feeds them again what was once found (kept_inputs_test.cpp).
namespace dullcast::fuzz {

/// What no reader may do with any bytes: an error without a place, text that acts on a terminal, a value out
/// of its range, another value when it is read again.
class Fault : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// One reader. `take` returns for bytes that it reads and for those that it refuses as it should, and throws
/// Fault, or lets through what the reader threw, for anything else. From one thread at a time.
struct Feed {
  const char* name;
  void (*take)(const std::string& bytes);
};

/// A text of YAML as a tree, and every scalar of it quoted and read again.
void take_yaml(const std::string& bytes);
/// The first byte chooses a dimension; the rest is a value with its unit.
void take_units(const std::string& bytes);
/// A table (CSV) and the headings of a shelf.
void take_table(const std::string& bytes);
/// A scenario; what is read has its resolved text read again.
void take_scenario(const std::string& bytes);
/// `key=value` changes (--set) of a scenario, one a line.
void take_sets(const std::string& bytes);
/// What inspected bits taught (`learned:` of a scenario names it).
void take_learned(const std::string& bytes);
/// A file of the library, which a first line such as "# rocks.yaml" names, among the shipped ones.
void take_library(const std::string& bytes);
/// A shelf of records: YAML where it begins with "sh" (shelf:, shared:), else a table.
void take_shelf(const std::string& bytes);
/// A plan of a sweep and, after a line "==== cases.csv", its table.
void take_sweep_plan(const std::string& bytes);
/// A shop's plan and, after lines such as "==== bits.csv", its tables.
void take_shop_plan(const std::string& bytes);
/// What the child process that HDF5 reads in sends of a file (tree_stream), after a letter for its kind: r a
/// run, s a sweep, p a part of one, o a shop's outlook; after c, a file with its checksum.
void take_stored(const std::string& bytes);

inline const std::vector<Feed>& feeds() {
  static const std::vector<Feed> all{
      {"yaml", take_yaml},           {"units", take_units},  {"table", take_table},
      {"scenario", take_scenario},   {"sets", take_sets},    {"learned", take_learned},
      {"library", take_library},     {"shelf", take_shelf},  {"sweep_plan", take_sweep_plan},
      {"shop_plan", take_shop_plan}, {"stored", take_stored}};
  return all;
}

}  // namespace dullcast::fuzz
