#include "tools/commands/start_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/display.hpp"

namespace dullcast::commands {
namespace {

/// What a cutter counts as; lists of them are in this order.
enum class StartsAs { left, measured, worn, renewed, turned, chipped, bare, lost };
constexpr std::array words{"as the earlier result left them",
                           "as measured",
                           "worn",
                           "new",
                           "turned",
                           "chipped",
                           "without diamond",
                           "lost"};

bool marked(const Eigen::ArrayXi& marks, Eigen::Index i) {
  return i < marks.size() && marks(i) != 0;
}

bool used(const Eigen::ArrayXd& values, Eigen::Index i) {
  return i < values.size() && values(i) > 0.0;
}

StartsAs starts_as(const scenario::BitRecord& bit, Eigen::Index i) {
  const scenario::SinceResult& since = bit.since_result;
  if (marked(bit.starting_lost, i)) return StartsAs::lost;
  if (marked(bit.starting_table_gone, i)) return StartsAs::bare;
  if (marked(bit.starting_chipped, i)) return StartsAs::chipped;
  if (!bit.continues.empty()) {
    if (marked(since.renewed, i)) return StartsAs::renewed;
    if (marked(since.turned, i)) return StartsAs::turned;
    return i < since.worn_height.size() && std::isfinite(since.worn_height(i)) ? StartsAs::measured
                                                                               : StartsAs::left;
  }
  const bool any =
      used(bit.starting_wear, i) || used(bit.starting_damage, i) || used(bit.starting_chip_hazard, i);
  return any ? StartsAs::worn : StartsAs::renewed;
}

}  // namespace

std::string start_words(const scenario::BitRecord& bit) {
  std::array<int, words.size()> counts{};
  double most_worn = 0.0;
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) {
    const StartsAs as = starts_as(bit, i);
    ++counts[static_cast<std::size_t>(as)];
    if (as != StartsAs::lost && i < bit.starting_wear.size())
      most_worn = std::max(most_worn, bit.starting_wear(i));
  }
  if (counts[static_cast<std::size_t>(StartsAs::renewed)] == bit.layout.count() && bit.continues.empty())
    return {};
  std::string text;
  for (std::size_t k = 0; k < words.size(); ++k) {
    if (counts[k] == 0) continue;
    const char* what = text.empty() ? (counts[k] == 1 ? " cutter " : " cutters ") : " ";
    text += (text.empty() ? "" : ", ") + std::to_string(counts[k]) + what + words[k];
  }
  if (bit.since_result.blades_built_up) text += ", blades built up";
  if (bit.since_result.pads_built_up) text += ", gauge pads built up";
  if (most_worn > 0.0)
    text += "; most worn " + base::show(most_worn, base::shown::length, base::ShownUnits::both);
  return text;
}

}  // namespace dullcast::commands
