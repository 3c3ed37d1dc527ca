#pragma once

#include <filesystem>
#include <string>

#include "engine/sweep/case_maker.hpp"
#include "engine/sweep/manifest.hpp"

/// A sweep whose runs take hundredths of a second. Every number is invented.
namespace dullcast::testing {

using namespace sweep;  // the room that is tested

inline const char* small_field() {
  return "title: small field\n"
         "bit: {like: three_blade_3_3_4, grade: standard}\n"
         "fluid: water\n"
         "plan:\n"
         "  - {to: 1 m, weight_on_bit: 1500 lbf, rotary_speed: 90 rpm, flow: 25 gal/min}\n"
         "  - {weight_on_bit: 1800 lbf, rotary_speed: 80 rpm, flow: 25 gal/min}\n"
         "column:\n"
         "  water_level: 5 m\n"
         "  layers: [{rock: limestone, bottom: 1 m}, {rock: sandstone, bottom: 2 m}]\n"
         "rework: {worn_height: 2 mm}\n"
         "costs: {bit: 900 $, rig: 60 $/h}\n"
         "stepping: {relative_tolerance: 1e-2, output_every: 0.1 m}\n";
}

inline const char* small_plan() {
  return "title: small sweep\n"
         "scenario: field.yaml\n"
         "seed: 7\n"
         "factors:\n"
         "  - {name: weight, path: plan.*.weight_on_bit, multiply: yes, values: [0.8, 1.2]}\n"
         "  - {name: grade, path: bit.grade, values: [standard, premium]}\n"
         "design: {kind: grid}\n"
         "draws:\n"
         "  runs: 3\n"
         "  values:\n"
         "    - {number: abrasion_coefficient}\n"
         "    - {path: fluid.inlet_temperature, kind: normal, mean: 15 degC, deviation: 2 K, source: "
         "invented}\n"
         "  layers: {strength_spread: 0.2, abrasivity_spread: 0.3, together: 0.5, correlation_depth: 1 m, "
         "source: invented}\n"
         "  lenses: [{rock: gravel, mean_spacing: 2 m, thickness: 5 cm, source: invented}]\n"
         "histories: {cases: [2], every: 5, rows: 6}\n";
}

inline const input::LibraryTexts& library_texts() {
  static const input::LibraryTexts texts =
      input::read_library_texts(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  return texts;
}

inline sweep::SweepTexts small_texts(const std::string& plan = small_plan(),
                                     const std::string& field = small_field(),
                                     const std::string& table = "") {
  return {plan, "plan.yaml", field, "field.yaml", table, table.empty() ? "" : "table.csv", library_texts()};
}

inline sweep::SweepManifest small_manifest(const std::string& plan = small_plan()) {
  sweep::SweepManifest manifest;
  manifest.program = "a program";
  manifest.program_digits = "00000000";
  manifest.arithmetic = sweep::arithmetic_digits();
  manifest.cases_per_chunk = 4;
  manifest.texts = small_texts(plan);
  return manifest;
}

/// `text` with the first `from` replaced; empty when there is no `from`.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  return at == std::string::npos ? std::string() : text.replace(at, from.size(), to);
}

/// A folder of its own that goes with it.
struct OwnFolder {
  std::filesystem::path path;
  OwnFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "dullcast-sweep-XXXXXX").string();
    if (!mkdtemp(name.data())) throw std::runtime_error("no folder of its own");
    path = name;
  }
  ~OwnFolder() { std::filesystem::remove_all(path); }
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  std::string operator/(const std::string& name) const { return (path / name).string(); }
};

}  // namespace dullcast::testing
