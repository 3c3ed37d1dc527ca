#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>

#include "engine/input/scenario_reader.hpp"
#include "engine/simulation/run.hpp"
#include "engine/storage/hdf5_walk.hpp"
#include "engine/storage/sample_shop.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/storage/write_result.hpp"

// What the readers of stored files begin from when they are fuzzed: small files of each kind, as the child
// process sends them (take_stored). Usage: fuzz-seeds FOLDER
namespace {

namespace storage = dullcast::storage;

std::string in_folder(const std::string& name) {
  return (std::filesystem::temp_directory_path() / ("dullcast-seed-" + name)).string();
}

/// The file at `path` as the child process sends it, after its letter; the file is removed.
void keep(char kind, const std::string& path, const std::string& seed) {
  std::string stream(1, kind);
  storage::tree_stream::Sender sender(
      [&](const void* bytes, std::size_t count) { stream.append(static_cast<const char*>(bytes), count); });
  storage::send_hdf5_file(path, std::filesystem::file_size(path), {}, sender);
  std::ofstream(seed, std::ios::binary) << stream;
  std::filesystem::remove(path);
}

void keep_run(const std::string& seed) {
  const std::string text =
      "title: a short well\nbit: {like: three_blade_3_3_4}\nfluid: water\nplan:\n  - {weight_on_bit: 2000 "
      "lbf, "
      "rotary_speed: 85 rpm, flow: 20 gal/min}\ncolumn:\n  layers:\n    - {rock: shale, thickness: 1 ft}\n"
      "rework: {worn_height: 2 mm}\nstepping: {relative_tolerance: 1e-2, output_every: 0 m}\n";
  std::vector<dullcast::input::Warning> warnings;
  const auto scenario =
      dullcast::input::ScenarioReader(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library")
          .read_text(text, "well.yaml", {}, warnings);
  const std::string path = in_folder("run.h5");
  storage::write_result(path, scenario, dullcast::simulation::run(scenario));
  keep('r', path, seed);
}

storage::SweepPart small_part() {
  storage::SweepPart part;
  part.fingerprint = "0123456789abcdef";
  part.values = Eigen::Array<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>::Constant(4, 2, 0.5);
  part.failures.push_back({2, "the run gets no further"});
  part.histories.push_back({1, Eigen::ArrayXXd::Constant(3, 2, 0.25)});
  return part;
}

void keep_sweep(const std::string& seed, const std::string& part_seed) {
  const std::string part_path = in_folder("part.h5"), path = in_folder("sweep.h5");
  storage::write_sweep_part(part_path, small_part());
  keep('p', part_path, part_seed);
  storage::SweepHeader header;
  header.table.title = "a small sweep";
  header.table.currency = "$";
  header.table.design = "grid";
  header.table.points = 2;
  header.table.draws = 2;
  header.table.columns = {
      {"speed", "s-1", "rotary speed", storage::ColumnRole::setting, {}, {}},
      {"ended_by", "1", "how it ended", storage::ColumnRole::outcome, {"one", "two"}, {}}};
  header.history_columns = {{"depth", "m", "depth", storage::ColumnRole::outcome, {}, {}},
                            {"time", "s", "time", storage::ColumnRole::outcome, {}, {}}};
  header.history_rows = 3;
  header.program_version = "0.1.0";
  header.program_commit = "none";
  header.plan = "title: a small sweep\n";
  header.scenario = "title: base\n";
  header.manifest = "plan: {}\n";
  storage::write_sweep(path, header, 1, [](long) { return small_part(); });
  keep('s', path, seed);
}

void keep_shop(const std::string& seed) {
  const std::string path = in_folder("shop.h5");
  storage::write_shop(path, storage::sample::shop());
  keep('o', path, seed);
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "Usage: fuzz-seeds FOLDER\n";
    return 2;
  }
  const std::string folder = words[1];
  std::filesystem::create_directories(folder);
  keep_run(folder + "/run");
  keep_sweep(folder + "/sweep", folder + "/part");
  keep_shop(folder + "/outlook");
  return 0;
}
