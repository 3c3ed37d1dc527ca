#include "engine/simulation/outcome.hpp"

#include <stdexcept>

namespace dullcast::simulation {

const char* event_name(EventKind kind) {
  switch (kind) {
    case EventKind::layer_entered:
      return "layer_entered";
    case EventKind::hole_finished:
      return "hole_finished";
    case EventKind::rework_due:
      return "rework_due";
    case EventKind::beyond_repair:
      return "beyond_repair";
    case EventKind::table_ruined:
      return "table_ruined";
    case EventKind::blade_rubs:
      return "blade_rubs";
    case EventKind::stopped_drilling:
      return "stopped_drilling";
    case EventKind::fluid_boils:
      return "fluid_boils";
    case EventKind::string_too_heavy:
      return "string_too_heavy";
    case EventKind::chip:
      return "chip";
    case EventKind::cutter_lost:
      return "cutter_lost";
    case EventKind::table_lost:
      return "table_lost";
    case EventKind::blade_sheared:
      return "blade_sheared";
    case EventKind::film_forms:
      return "film_forms";
    case EventKind::surface_rewets:
      return "surface_rewets";
    case EventKind::runs_dry:
      return "runs_dry";
    case EventKind::slots_pack:
      return "slots_pack";
    case EventKind::slots_clear:
      return "slots_clear";
    case EventKind::upset_begins:
      return "upset_begins";
    case EventKind::upset_ends:
      return "upset_ends";
    case EventKind::quench:
      return "quench";
  }
  throw std::logic_error("event_name: not a kind of event");
}

const char* ended_by_name(EndedBy ended) {
  switch (ended) {
    case EndedBy::last_hole:
      return "last_hole";
    case EndedBy::rework_due:
      return "rework_due";
    case EndedBy::beyond_repair:
      return "beyond_repair";
    case EndedBy::stopped_drilling:
      return "stopped_drilling";
    case EndedBy::blade_sheared:
      return "blade_sheared";
  }
  throw std::logic_error("ended_by_name: not a way to end");
}

}  // namespace dullcast::simulation
