#include "engine/pages/event_sentences.hpp"

#include <cmath>
#include <stdexcept>

#include "models/common/constants.hpp"

namespace dullcast::pages {
namespace {

std::string whole(double value) {
  return std::to_string(std::lround(value));
}

}  // namespace

std::string event_sentence(const simulation::Event& event) {
  using simulation::EventKind;
  switch (event.kind) {
    case EventKind::layer_entered:
      return "Enters " + event.word + ".";
    case EventKind::hole_finished:
      return "Hole finished; the bit is tripped out.";
    case EventKind::rework_due:
      return "Rework is due by the rule " + event.word + ".";
    case EventKind::beyond_repair:
      return "Worn past what a usual rework puts right: pockets and blades start to go.";
    case EventKind::table_ruined:
      return "Heat has ruined the diamond table; from here it wears like carbide.";
    case EventKind::blade_rubs:
      return "A blade carries weight at radius " + whole(1e3 * event.value) + " mm.";
    case EventKind::stopped_drilling:
      return event.value > 0.0 ? "The bit no longer drills at the least progress asked for."
                               : "No weight is on the bit: the holdback carries pull-down and string.";
    case EventKind::fluid_boils:
      return "Water at the bit boils.";
    case EventKind::string_too_heavy:
      return "From here the string alone puts more than the weight limit on the bit: hold back.";
    case EventKind::chip:
      return "The edge chips, " + whole(1e6 * event.value) + " micrometres deep.";
    case EventKind::cutter_lost:
      return "The cutter leaves its pocket; its neighbours take its load.";
    case EventKind::table_lost:
      return "The diamond table comes off its carbide, which wears fast from here.";
    case EventKind::blade_sheared:
      return "Blade " + std::to_string(event.number) + " shears off at its root.";
    case EventKind::film_forms:
      return "Boiling turns to a film of steam on the hottest cutter, which cools badly.";
    case EventKind::surface_rewets:
      return "The last film of steam collapses: water wets every cutter again.";
    case EventKind::runs_dry:
      return "The last water at the bottom has boiled away.";
    case EventKind::slots_pack:
      return "Cuttings pack the junk slots: the bit grinds them again and cools badly.";
    case EventKind::slots_clear:
      return "The junk slots are flushed clear.";
    case EventKind::upset_begins:
      return "Upset " + std::to_string(event.number) + " begins.";
    case EventKind::upset_ends:
      return "Upset " + std::to_string(event.number) + " ends.";
    case EventKind::quench:
      return "Cold flow meets diamond at " + whole(event.value - celsius_zero) + " C.";
  }
  throw std::logic_error("event_sentence: not a kind of event");
}

void tell_events(simulation::RunOutcome& outcome) {
  for (simulation::Event& event : outcome.events) event.text = event_sentence(event);
}

}  // namespace dullcast::pages
