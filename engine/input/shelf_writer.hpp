#pragma once

#include <string>
#include <vector>

namespace dullcast::input {

/// What a person says of a bit under one key of its record, as it would stand in a shelf.
struct RecordAnswer {
  std::string key, text;
};

/// A shelf's text with one more record at its end; everything that was there stays as it is to the byte:
/// comments, order, ends of lines, separators. Only where a table has no column for a key is one added behind
/// the last heading. `file` tells the layout by its ending, as read_shelf_text has it. Throws ScenarioErrors
/// for a text that cannot be read as a shelf's layout, a list of YAML between brackets, and wherever the
/// records that were there would not come out the same as before.
std::string with_record(const std::string& text, const std::string& file,
                        const std::vector<RecordAnswer>& record);

/// A shelf without a record: the headings of a table, or YAML.
std::string empty_shelf(const std::string& file);

}  // namespace dullcast::input
