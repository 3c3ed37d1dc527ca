#include <algorithm>
#include <cstring>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/starting_state.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/storage/tree_stream.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {
namespace {

const std::string fed_file = "fed.h5";

/// A scenario of a bit of three cutters, as the seeds' run has it.
const scenario::Scenario& following_scenario() {
  static const scenario::Scenario scenario = [] {
    std::vector<input::Warning> warnings;
    return fed_reader().read(fed_folder() + "/well.yaml", {}, warnings);
  }();
  return scenario;
}

void read_as(char kind, const storage::StoredGroup& file) {
  switch (kind) {
    case 'r': {
      const storage::StoredRun run = storage::result_of(file, fed_file);
      if (!base::is_plain(run.title)) throw Fault("a title with control characters");
      scenario::Scenario next = following_scenario();
      storage::apply_starting_state(next, run);
      must_be_finite(next);
      return;
    }
    case 's': {
      const storage::SweepTable table = storage::sweep_of(file, fed_file);
      for (const storage::SweepColumn& column : table.columns) {
        if (column.values.size() != table.cases()) throw Fault("a column of another length");
      }
      storage::sweep_courses_of(file, fed_file);
      return;
    }
    case 'p':
      storage::sweep_part_of(file, fed_file);
      return;
    default: {
      const storage::ShopOutlook outlook = storage::shop_of(file, fed_file);
      for (const storage::StationOutlook& station : outlook.stations) {
        if (station.weeks.size() != outlook.weeks.size()) throw Fault("a station of other weeks");
      }
    }
  }
}

}  // namespace

void take_stored(const std::string& bytes) {
  if (bytes.empty()) return;
  std::size_t at = 1;
  if (bytes.front() == 'c') {
    storage::verify_checksum(bytes.size(), [&](std::size_t from, void* to, std::size_t count) {
      const std::size_t given = from < bytes.size() ? std::min(count, bytes.size() - from) : 0;
      std::memcpy(to, bytes.data() + from, given);
      return given;
    });
    return;
  }
  storage::StoredGroup file;
  try {
    file = storage::tree_stream::receive(
        [&](void* to, std::size_t count) {
          if (count > bytes.size() - at) throw storage::tree_stream::Refused("the child is lost");
          std::memcpy(to, bytes.data() + at, count);
          at += count;
        },
        std::size_t{16} << 20, 64e6);
  } catch (const storage::tree_stream::Refused&) {
    return;
  } catch (const storage::tree_stream::BeyondMemory&) {
    return;
  }
  try {
    read_as(bytes.front(), file);
  } catch (const base::FileError& error) {
    const std::string words = error.what();
    if (!words.starts_with(fed_file + ": ")) throw Fault("no place in: " + words);
    if (!base::is_plain(words)) throw Fault("control characters in: " + base::plain(words));
  }
}

}  // namespace dullcast::fuzz
