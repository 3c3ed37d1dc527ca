#include "tools/dullcast/sweep_inputs.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "engine/results/sweep_file.hpp"
#include "engine/sweep/case_maker.hpp"
#include "engine/sweep/parts_folder.hpp"
#include "tools/dullcast/command.hpp"

namespace dullcast {

namespace fs = std::filesystem;

Beginning read_sweep_inputs(const std::string& plan_file, const std::string& library) {
  Beginning beginning;
  SweepTexts& texts = beginning.texts;
  texts.plan = read_text_file(plan_file);
  const PlanNames names = names_in_plan(texts.plan, plan_file);
  texts.scenario = read_text_file(names.scenario);
  if (!names.table.empty()) texts.table = read_text_file(names.table);
  texts.plan_file = plan_file;
  texts.scenario_file = names.scenario;
  texts.table_file = names.table;
  texts.library = read_library_texts(library_folder(library, names.scenario));
  name_program(beginning);
  beginning.arithmetic = arithmetic_digits();
  return beginning;
}

void name_program(Beginning& beginning) {
  beginning.program = version_line();
  std::ifstream file("/proc/self/exe", std::ios::binary);
  beginning.program_digits = digits_of(std::string(std::istreambuf_iterator<char>(file), {}));
}

std::string usual_sweep_output(const std::string& plan_file) {
  const std::string name = fs::path(plan_file).stem().string() + ".h5";
  return fs::is_directory("results") ? (fs::path("results") / name).string() : name;
}

Scenario case_of_sweep(const std::string& sweep, long number) {
  const Beginning beginning = fs::is_directory(sweep) ? PartsFolder(sweep).beginning()
                                                      : read_beginning(read_sweep_beginning(sweep), sweep);
  std::vector<Warning> said;
  const CaseMaker maker(beginning.texts, said);
  if (number < 1 || number > maker.cases()) {
    throw std::invalid_argument(sweep + ": has cases 1 to " + std::to_string(maker.cases()) +
                                ", and no case " + std::to_string(number));
  }
  Case one = maker.make_case(number);
  return maker.make_scenario(one);
}

}  // namespace dullcast
