#include "engine/pages/page_words.hpp"

namespace dullcast::pages {

std::vector<std::string> estimate_words(int learned_from) {
  std::vector<std::string> all = {"All figures are estimates from a model."};
  if (learned_from > 0)
    all.push_back("Calibrated: how fast diamond wears rests on " + std::to_string(learned_from) +
                  (learned_from == 1 ? " inspected bit." : " inspected bits."));
  else
    all.emplace_back(
        "Uncalibrated: how fast diamond wears is known to a factor of three either way until inspected bits "
        "calibrate it.");
  all.emplace_back(
      "Weight and progress of sharp bits: median error 8 % in progress and 3 % in weight on 35 laboratory "
      "rows, worst 28 % and 14 %.");
  all.emplace_back("Heat through a cutter: within 10 % of 3-D finite elements for 598 of 600 flats.");
  all.emplace_back(
      "How often edges chip, seats and bonds fail, slots pack and bodies erode rests on assumptions: to "
      "compare, not to promise.");
  all.emplace_back("Not modelled: vibration, cuttings that stick, losses into the ground, gels.");
  return all;
}

std::vector<std::string> caution_words() {
  const std::string heat_and_dust =
      "Brazing is hot and gives off fumes; grinding diamond and carbide makes dust that harms lungs: leave "
      "both to people who are equipped and trained.";
  return {"The bit in the hand decides: inspect it whenever it is out of the hole.",
          "Keep clear of rotating iron and of lines under pressure.",
          "Bits, pipe and collars are heavy lifts: lift them with gear.", heat_and_dust,
          "Local codes, the rig's procedures and a licensed driller come first."};
}

}  // namespace dullcast::pages
