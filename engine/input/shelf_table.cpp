#include "engine/input/shelf_table.hpp"

namespace dullcast::input {
namespace {

const TableKeys& shelf_keys() {
  static const TableKeys keys{
      record_keys(),
      {"drilled", "weight_on_bit", "rotary_speed", "flow", "cutters", "gauge_loss", "measurement_error"},
      true};
  return keys;
}

}  // namespace

const std::vector<std::string>& record_keys() {
  static const std::vector<std::string> keys{"bit",
                                             "inspected",
                                             "scenario",
                                             "lot",
                                             "holes",
                                             "drilled",
                                             "weight_on_bit",
                                             "rotary_speed",
                                             "flow",
                                             "inner_grade",
                                             "outer_grade",
                                             "dull_grading",
                                             "cutters",
                                             "breakage_noted",
                                             "chipped",
                                             "lost",
                                             "heat_checked",
                                             "gauge_loss",
                                             "reason_pulled",
                                             "pockets",
                                             "body",
                                             "repairs",
                                             "photos",
                                             "note",
                                             "measurement_error"};
  return keys;
}

std::vector<TableColumn> shelf_columns(const CsvTable& table, const std::string& file, Problems& problems) {
  return table_columns(table, shelf_keys(), file, problems);
}

std::vector<YamlValue> records_of_table(const CsvTable& table, const std::string& file, Problems& problems) {
  return maps_of_table(table, shelf_keys(), file, problems);
}

}  // namespace dullcast::input
