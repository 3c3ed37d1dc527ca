#include "tools/commands/file_check.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/input/learned_reader.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/input/text_file.hpp"
#include "engine/input/text_kind.hpp"
#include "engine/input/units.hpp"
#include "engine/shop/shop_plan_reader.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/starting_state.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/sweep/case_maker.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/sweep_inputs.hpp"

namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;

/// More cases than these are not made: each takes up to a millisecond.
constexpr long most_cases = 2000;

std::string counted(long count, const std::string& what) {
  return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

void tell(FileCheck& check, const std::vector<input::Warning>& warnings) {
  for (const input::Warning& warning : warnings) check.unwise.push_back(warning.message());
}

/// Does `work` and keeps what it finds fault with.
template <class Work>
void gather(FileCheck& check, const std::string& before, const Work& work) {
  try {
    work();
  } catch (const input::ScenarioErrors& errors) {
    for (const std::string& message : errors.messages()) check.faults.push_back(before + message);
    check.count += errors.count();
  } catch (const input::UnitError&) {
    throw;  // no database of units: nothing can be said of any file
  } catch (const base::FileError& error) {
    check.faults.push_back(before + error.what());
    ++check.count;
  } catch (const std::exception& error) {
    if (base::is_machine_fault(error)) throw;
    check.faults.push_back(before + error.what());
    ++check.count;
  }
}

/// The result that a bit goes on from, and the scenario of the bit that was inspected.
void follow(FileCheck& check, const std::string& file, const std::string& library,
            scenario::Scenario scenario) {
  const std::string earlier = scenario.bit.continues;
  if (!earlier.empty()) {
    if (std::error_code none; !fs::exists(earlier, none)) {
      check.bad = "cannot be run yet";
      check.faults.push_back(file + ": bit.continues: " + earlier +
                             " is not there; run the scenario that makes it first");
      ++check.count;
    } else {
      gather(check, file + ": bit.continues: ", [&] {
        storage::apply_starting_state(scenario, storage::read_result(earlier));
      });
    }
  }
  if (!scenario.calibrate_from) return;
  gather(check, file + ": calibrate_from: ", [&] {
    std::vector<input::Warning> warnings;
    const std::string other = scenario.calibrate_from->scenario_file;
    const scenario::Scenario inspected =
        input::read_scenario(other, library_folder(library, other), {}, warnings);
    tell(check, warnings);
    follow(check, other, library, inspected);
  });
}

FileCheck check_scenario(const std::string& file, const std::string& library,
                         const std::vector<std::string>& sets) {
  FileCheck check;
  check.what = "a scenario";
  gather(check, "", [&] {
    std::vector<input::Warning> warnings;
    const scenario::Scenario scenario =
        input::read_scenario(file, library_folder(library, file), sets, warnings);
    tell(check, warnings);
    check.resolved = scenario.text;
    follow(check, file, library, scenario);
  });
  return check;
}

FileCheck check_plan(const std::string& file, const std::string& library) {
  FileCheck check;
  check.what = "a plan";
  gather(check, "", [&] {
    const sweep::SweepManifest beginning = read_sweep_inputs(file, library);
    std::vector<input::Warning> warnings;
    const sweep::CaseMaker maker(beginning.texts, warnings);
    tell(check, warnings);
    check.what = "a plan of " + counted(maker.cases(), "run") + " over " +
                 fs::path(beginning.texts.scenario_file).filename().string();
    const long points = std::min(maker.points(), most_cases), draws = maker.cases() / maker.points();
    long wrong = 0;
    FileCheck first;
    for (long point = 0; point < points; ++point) {
      const std::string number = std::to_string(point * draws + 1);
      FileCheck one;
      gather(one, file + ": case " + number + ": ", [&] {
        sweep::Case made = maker.make_case(point * draws + 1);
        maker.make_scenario(made);
      });
      if (!one.faults.empty() && ++wrong == 1) first = one;
    }
    check.faults = first.faults;
    check.count = first.count;
    if (wrong > 1)
      check.faults.push_back(file + ": and " + std::to_string(wrong - 1) + " more of " +
                             counted(points, "point") + " make no scenario");
    if (wrong > 1) ++check.count;
  });
  return check;
}

FileCheck check_library_file(const std::string& file, const std::string& library) {
  FileCheck check;
  const fs::path path = file;
  check.what = "a file of the library";
  check.good = "can be used";
  check.bad = "cannot be used";
  gather(check, "", [&] {
    // Its neighbours, or where it stands alone those of the library in use.
    const fs::path beside = path.has_parent_path() ? path.parent_path() : fs::path(".");
    const bool whole = std::all_of(std::begin(input::library_files), std::end(input::library_files),
                                   [&](const char* name) { return fs::exists(beside / name); });
    input::LibraryTexts texts =
        input::read_library_texts(whole ? beside.string() : library_folder(library, file));
    texts.files[path.filename().string()] = input::read_text_file(file);
    texts.folder = beside.string();
    const input::ScenarioReader reader(texts);
  });
  return check;
}

FileCheck check_shelf(const std::string& file, const std::string& library) {
  FileCheck check;
  check.what = "a shelf";
  check.good = "can be used";
  check.bad = "cannot be used";
  gather(check, "", [&] {
    std::vector<input::Warning> warnings;
    const input::ScenarioReader reader(library_folder(library, file));
    const auto shelf = input::read_shelf(file, reader, warnings);
    tell(check, warnings);
    check.what = "a shelf of " + counted(static_cast<long>(shelf.size()), "bit");
  });
  return check;
}

FileCheck check_learned(const std::string& file, const std::string& library) {
  FileCheck check;
  check.what = "what inspected bits told";
  check.good = "can be used";
  check.bad = "cannot be used";
  gather(check, "", [&] {
    const input::ScenarioReader reader(library_folder(library, file));
    const scenario::Learned learned = input::read_learned_file(file, reader.units(), reader.library());
    check.what = "what " + counted(learned.bits, "inspected bit") + " told, for `learned:`";
  });
  return check;
}

FileCheck check_shop_plan(const std::string& file, const std::string& library) {
  FileCheck check;
  check.what = "a shop's plan";
  gather(check, "", [&] {
    std::vector<input::Warning> warnings;
    const input::ScenarioReader reader(library_folder(library, file));
    const shop::ShopPlan plan = shop::read_shop_plan(file, reader, warnings);
    tell(check, warnings);
    check.what = "a shop's plan of " + counted(static_cast<long>(plan.holes.size()), "hole") + ", " +
                 counted(static_cast<long>(plan.rigs.size()), "rig") + " and " +
                 counted(static_cast<long>(plan.bits.size()), "bit");
  });
  return check;
}

FileCheck check_stored(const std::string& file) {
  FileCheck check;
  check.good = "whole";
  check.bad = "cannot be used";
  // As what it says it is; as a run where it says nothing of that.
  std::string why;
  bool sweep = false, part = false, shop = false;
  try {
    const storage::StoredRun run = storage::read_result(file);
    check.what = "the result of a run, \"" + run.title + "\", format " + std::to_string(run.format_major) +
                 "." + std::to_string(run.format_minor);
    return check;
  } catch (const storage::OtherKindOfFile& other) {
    why = other.what();
    sweep = other.is(storage::sweep_file);
    part = other.is(storage::part_file);
    shop = other.is(storage::shop_file);
  } catch (const base::FileError& error) {
    why = error.what();
  }
  try {
    if (sweep) {
      const storage::SweepTable table = storage::read_sweep(file);
      check.what = "the result of a sweep, \"" + table.title + "\", " + counted(table.cases(), "run") + ", " +
                   std::to_string(table.failures.size()) + " of them failed";
      return check;
    }
    if (part) {
      storage::read_sweep_part(file);
      check.what = "a part of a sweep";
      return check;
    }
    if (shop) {
      const storage::ShopOutlook outlook = storage::read_shop(file);
      check.what = "a shop's outlook, \"" + outlook.title + "\", " + counted(outlook.futures, "future") +
                   ", " + counted(static_cast<long>(outlook.bits.size()), "bit") + ", " +
                   counted(static_cast<long>(outlook.holes.size()), "hole");
      return check;
    }
  } catch (const base::FileError& error) {
    why = error.what();
  }
  check.what = "a result";
  check.faults.push_back(why);
  check.count = 1;
  return check;
}

bool is_hdf5(const std::string& file) {
  // HDF5 File Format Specification 3.0, section II.A: the signature.
  constexpr std::string_view signature("\x89HDF\r\n\x1a\n", 8);
  if (std::error_code none; !fs::is_regular_file(file, none)) return false;
  std::ifstream stream(file, std::ios::binary);
  std::string start(signature.size(), '\0');
  stream.read(start.data(), static_cast<std::streamsize>(start.size()));
  return start == signature;
}

bool has_key(const input::YamlValue& tree, std::initializer_list<const char*> keys) {
  return std::any_of(keys.begin(), keys.end(), [&](const char* key) { return tree.find(key) != nullptr; });
}

}  // namespace

FileCheck check_file(const std::string& file, const std::string& library,
                     const std::vector<std::string>& sets) {
  if (is_hdf5(file) || fs::path(file).extension() == ".h5") return check_stored(file);
  if (input::is_table_name(file)) return check_shelf(file, library);
  // A text that cannot be read at all is for the scenario's reader to say.
  input::YamlValue tree;
  try {
    tree = input::ScenarioReader::parse(input::read_text_file(file), file);
  } catch (const input::ScenarioErrors&) {
    return check_scenario(file, library, sets);
  }
  switch (input::kind_of_text(tree)) {
    case input::TextKind::shop_plan:
      return check_shop_plan(file, library);
    case input::TextKind::sweep_plan:
      return check_plan(file, library);
    case input::TextKind::learned:
      return check_learned(file, library);
    case input::TextKind::shelf:
      return check_shelf(file, library);
    case input::TextKind::scenario:
      break;
  }
  const std::string name = fs::path(file).filename().string();
  const bool named = std::find(std::begin(input::library_files), std::end(input::library_files), name) !=
                     std::end(input::library_files);
  if (named && !has_key(tree, {"column", "plan", "fluid"})) return check_library_file(file, library);
  return check_scenario(file, library, sets);
}

}  // namespace dullcast::commands
