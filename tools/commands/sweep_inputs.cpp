#include "tools/commands/sweep_inputs.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "engine/input/scenario_writer.hpp"
#include "engine/input/text_file.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/sweep/case_maker.hpp"
#include "engine/sweep/parts_folder.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/ready_scenario.hpp"

namespace dullcast::commands {

namespace fs = std::filesystem;

namespace {

/// How the bit of the plan's scenario starts, where that goes on from an earlier result, and what was learnt,
/// where it names a file of that.
std::vector<std::string> start_of_base(const sweep::SweepTexts& texts, const sweep::PlanNames& names) {
  scenario::Scenario base;
  try {
    std::vector<input::Warning> said;
    base = input::ScenarioReader(texts.library).read_text(texts.scenario, names.scenario, names.fixed, said);
  } catch (const input::ScenarioErrors&) {
    return {};  // told, with all else, when the plan is read
  }
  std::vector<std::string> sets;
  if (!base.bit.continues.empty()) {
    go_on_from_result(base, names.scenario);
    sets = input::start_as_sets(base.bit);
  }
  if (base.learned && !base.learned->file.empty())
    sets.push_back("learned=" + input::read_text_file(base.learned->file));
  return sets;
}

}  // namespace

sweep::SweepManifest read_sweep_inputs(const std::string& plan_file, const std::string& library) {
  sweep::SweepManifest beginning;
  sweep::SweepTexts& texts = beginning.texts;
  texts.plan = input::read_text_file(plan_file);
  const sweep::PlanNames names = sweep::names_in_plan(texts.plan, plan_file);
  texts.scenario = input::read_text_file(names.scenario);
  if (!names.table.empty()) texts.table = input::read_text_file(names.table, input::most_table_bytes);
  texts.plan_file = plan_file;
  texts.scenario_file = names.scenario;
  texts.table_file = names.table;
  texts.library = input::read_library_texts(library_folder(library, names.scenario));
  texts.start = start_of_base(texts, names);
  name_program(beginning);
  beginning.arithmetic = sweep::arithmetic_digits();
  return beginning;
}

void name_program(sweep::SweepManifest& beginning) {
  beginning.program = version_line();
  std::ifstream file("/proc/self/exe", std::ios::binary);
  beginning.program_digits = sweep::digits_of(std::string(std::istreambuf_iterator<char>(file), {}));
}

scenario::Scenario case_of_sweep(const std::string& sweep, long number) {
  const sweep::SweepManifest beginning =
      fs::is_directory(sweep) ? sweep::PartsFolder(sweep).manifest()
                              : sweep::read_manifest(storage::read_sweep_manifest(sweep), sweep);
  std::vector<input::Warning> said;
  const sweep::CaseMaker maker(beginning.texts, said);
  if (number < 1 || number > maker.cases()) {
    throw std::invalid_argument(sweep + ": has cases 1 to " + std::to_string(maker.cases()) +
                                ", and no case " + std::to_string(number));
  }
  sweep::Case one = maker.make_case(number);
  return maker.make_scenario(one);
}

}  // namespace dullcast::commands
