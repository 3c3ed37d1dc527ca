#include "fuzz/fed_reader.hpp"

#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>

#include "engine/base/plain_text.hpp"
#include "engine/input/problems.hpp"
#include "engine/scenario/number_fields.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {
namespace {

// Short, cheap to drill, and with each section that records and shops' holes rest on.
constexpr const char* short_well =
    "title: short well\n"
    "bit: {like: three_blade_3_3_4}\n"
    "fluid: water\n"
    "plan:\n"
    "  - {weight_on_bit: 2000 lbf, rotary_speed: 85 rpm, flow: 20 gal/min}\n"
    "column:\n"
    "  layers:\n"
    "    - {rock: shale, thickness: 3 ft}\n"
    "    - {rock: sandstone, thickness: 2 ft}\n"
    "rework: {worn_height: 2 mm}\n"
    "stepping: {relative_tolerance: 1e-2, output_every: 0 m}\n";

class OwnFolder {
 public:
  OwnFolder()
      : path_((std::filesystem::temp_directory_path() / ("dullcast-fed-" + std::to_string(::getpid())))
                  .string()) {
    std::filesystem::create_directories(path_);
    std::ofstream(path_ + "/well.yaml") << short_well;
  }
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  ~OwnFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

/// A message begins with the file it is about, or the change of a --set, or counts the others.
bool has_place(const std::string& message) {
  for (const char* place : {".yaml:", ".csv:", ".h5:", "--set"}) {
    if (message.find(place) != std::string::npos) return true;
  }
  return message.starts_with("and ");
}

}  // namespace

const input::ScenarioReader& fed_reader() {
  static const input::LibraryTexts library =
      input::read_library_texts(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  static std::unique_ptr<input::ScenarioReader> reader;
  static int uses = 0;
  if (!reader || ++uses % 20'000 == 0) reader = std::make_unique<input::ScenarioReader>(library);
  return *reader;
}

const std::string& fed_folder() {
  static const OwnFolder folder;
  return folder.path();
}

void put_beside(const std::string& name, const std::string* text) {
  const std::string path = fed_folder() + "/" + name;
  if (!text) {
    ::unlink(path.c_str());
    return;
  }
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << *text;
  if (!file.flush()) throw std::runtime_error(path + ": cannot be written");
}

std::map<std::string, std::string> parts_of_fed(const std::string& bytes, const std::string& first) {
  std::map<std::string, std::string> parts;
  std::string name = first;
  const std::string mark = "==== ";
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t end = std::min(bytes.find('\n', at), bytes.size() - 1) + 1;
    if (bytes.compare(at, mark.size(), mark) == 0) {
      const bool ended = bytes[end - 1] == '\n';
      name = bytes.substr(at + mark.size(), end - at - mark.size() - (ended ? 1 : 0));
    } else {
      parts[name].append(bytes, at, end - at);
    }
    at = end;
  }
  return parts;
}

bool was_read(const std::function<void(std::vector<input::Warning>& warnings)>& read) {
  std::vector<input::Warning> warnings;
  try {
    read(warnings);
  } catch (const input::ScenarioErrors& errors) {
    if (errors.messages().empty()) throw Fault("errors without a message");
    // A plan that leads to other files may tell as many of each.
    if (errors.messages().size() > 12 * input::most_told) throw Fault("too many errors told");
    for (const std::string& message : errors.messages()) {
      if (!base::is_plain(message)) throw Fault("control characters in: " + base::plain(message));
      if (!has_place(message)) throw Fault("no place in: " + message);
      if (message.size() > 5000) throw Fault("an endless message: " + message.substr(0, 300));
    }
    return false;
  }
  for (const input::Warning& warning : warnings) {
    if (!base::is_plain(warning.message())) throw Fault("control characters in a warning");
  }
  return true;
}

void must_be_finite(scenario::Scenario scenario) {
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    if (!std::isfinite(quantity.low) || !std::isfinite(quantity.central) || !std::isfinite(quantity.high))
      throw Fault(name + " is not finite");
    if (quantity.low > quantity.central || quantity.central > quantity.high)
      throw Fault(name + " has its low, central and high out of order");
  });
  const scenario::BitRecord& bit = scenario.bit;
  const geometry::BitLayout& layout = bit.layout;
  for (const Eigen::ArrayXd* values : {&layout.radius, &layout.azimuth, &layout.depth, &layout.back_rake,
                                       &layout.side_rake, &layout.profile_angle, &layout.exposure,
                                       &bit.starting_wear, &bit.starting_damage, &bit.starting_chip_hazard}) {
    if (values->size() != layout.count()) throw Fault("the bit's lists differ in length");
    if (!values->isFinite().all()) throw Fault("the bit's layout is not finite");
  }
}

}  // namespace dullcast::fuzz
