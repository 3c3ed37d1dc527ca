#include "tools/shelf_maker/shelf_text.hpp"

#include "engine/base/plain_text.hpp"
#include "engine/base/threads.hpp"
#include "engine/input/shelf_reader.hpp"

namespace dullcast::shelf_maker {
namespace {

constexpr const char* heading =
    "bit,inspected,scenario,lot,holes,drilled,weight_on_bit (lbf),rotary_speed (rpm),flow (gal/min),"
    "inner_grade,outer_grade,cutters,chipped,lost\n";

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
  return text;
}

std::string row_of(const BitDrilled& bit, const BitFound& found) {
  std::vector<std::string> ground;
  for (const RockMetres& each : bit.ground)
    ground.push_back(each.rock + " " + std::to_string(each.metres) + " m");
  std::string row;
  for (const std::string& cell :
       {bit.name, bit.day, bit.scenario, bit.lot, std::to_string(bit.holes), joined(ground),
        std::to_string(bit.weight), std::to_string(bit.speed), std::to_string(bit.flow), found.inner,
        found.outer, joined(found.cutters), found.chipped, found.lost})
    row += (row.empty() ? "" : ",") + base::csv_cell(cell);
  return row + "\n";
}

}  // namespace

std::string shelf_text(const input::ScenarioReader& reader, const std::string& folder, unsigned long seed,
                       const Planted& planted) {
  const std::vector<BitDrilled> bits = forty_bits(seed);
  std::string text = heading;
  for (const BitDrilled& bit : bits) text += row_of(bit, {});
  std::vector<input::Warning> unwise;  // that nothing was found yet
  const auto shelf = input::read_shelf_text(text, folder + "/shelf.csv", reader, unwise);
  std::vector<BitFound> found(bits.size());
  base::parallel_for(static_cast<int>(bits.size()), 2, [&](int i) {
    const auto k = static_cast<std::size_t>(i);
    found[k] = drill_and_inspect(shelf[k].run, k, seed, planted);
  });
  text = heading;
  for (std::size_t k = 0; k < bits.size(); ++k) text += row_of(bits[k], found[k]);
  return text;
}

}  // namespace dullcast::shelf_maker
