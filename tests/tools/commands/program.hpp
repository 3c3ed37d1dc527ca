#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

/// Runs the real program and keeps what it said.
namespace dullcast::testing {

struct Said {
  int code = -1;
  std::string out, err;
};

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A folder of its own that goes away with the test.
class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "dullcast-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder");
    folder_ = name;
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name) << text;
    return (folder_ / name).string();
  }
  const std::filesystem::path& path() const { return folder_; }

 private:
  std::filesystem::path folder_;
};

/// Whether a text holds words.
inline bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

/// A path as a word for a shell.
inline std::string word(const std::string& path) {
  std::string result;
  for (const char letter : path) {
    if (letter == ' ') result += '\\';
    result += letter;
  }
  return result;
}

/// What a program says to `words`, which are as a shell would read them.
inline Said say_to(const std::string& program, const std::string& words) {
  const Scratch scratch;
  const std::string out = (scratch / "out").string(), err = (scratch / "err").string();
  const std::string command = word(program) + " " + words + " >" + out + " 2>" + err + " </dev/null";
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, text_of(out), text_of(err)};
}

inline Said say(const std::string& words) {
  return say_to(DULLCAST_PROGRAM, words);
}

inline std::string shipped(const std::string& scenario) {
  return word(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/" + scenario);
}

/// A small scenario: one well of 12 m in two rocks.
inline const char* small_well =
    "title: a small well\n"
    "bit: {like: four_blade_7_7_8}\n"
    "fluid: {name: water}\n"
    "plan:\n"
    "  - {weight_on_bit: 6500 lbf, rotary_speed: 85 rpm, flow: 60 gal/min}\n"
    "column:\n"
    "  layers:\n"
    "    - {rock: shale, bottom: 8 m}\n"
    "    - {rock: sandstone, bottom: 12 m}\n"
    "repeat: {holes: 1, stop_at: last_hole}\n"
    "rework: {worn_height: 2 mm}\n"
    "costs: {bit: 1900 $, rig: 85 $/h, rework: 420 $, replacement: 1900 $}\n"
    "stepping: {relative_tolerance: 1e-2}\n";

/// A small plan over it, as well.yaml beside the plan: six runs.
inline const char* small_plan =
    "title: a small sweep\n"
    "scenario: well.yaml\n"
    "factors: [{name: speed, path: plan.*.rotary_speed, values: [70 rpm, 90 rpm]}]\n"
    "draws: {runs: 3, values: [{number: abrasion_coefficient}]}\n";

}  // namespace dullcast::testing
