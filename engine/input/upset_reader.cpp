#include "engine/input/upset_reader.hpp"

#include "engine/base/display.hpp"
#include "engine/input/setting_ranges.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range lasting_range{0.0, 2.0 * 86400.0, false, "above 0 and up to 2 days"};
constexpr base::Range weight_range{0.0, setting_range::heaviest, true, "0 (off bottom) or more, up to 10 MN"};

int read_hole(MapReader& item, int holes) {
  const YamlValue* value = item.find("hole");
  if (!value) return 0;
  if (value->is_scalar() && value->text == "every") return -1;
  const auto hole = item.whole_number("hole", 1, 1'000'000);
  if (hole && *hole > holes) {
    item.warn("hole", "is hole " + std::to_string(*hole) + ", but repeat: drills " + std::to_string(holes) +
                          " at most: this upset never comes");
  }
  return hole.value_or(1) - 1;
}

void read_changes(MapReader& item, const scenario::FluidRecord& fluid, scenario::Upset& upset) {
  upset.flow = item.number("flow", base::dimension::flow, setting_range::flow);
  upset.mist_water = item.number("mist_water", base::dimension::flow, setting_range::flow);
  upset.weight_on_bit = item.number("weight_on_bit", base::dimension::force, weight_range);
  upset.rotary_speed =
      item.number("rotary_speed", base::dimension::rotary_speed, setting_range::rotary_speed);
  if (item.choice("pump", {"off"})) {
    for (const char* key : {"flow", "mist_water"}) {
      if (item.has(key)) item.error(key, "is given beside pump: off; keep one of them");
    }
    upset.flow = upset.mist_water = 0.0;
  }
  if (upset.mist_water.value_or(0.0) > 0.0 && fluid.kind == scenario::FluidKind::liquid &&
      !fluid.name.empty()) {
    item.error("mist_water", "is water carried by air, but the fluid is " + fluid.name +
                                 "; leave it out, or write fluid: air");
  }
  if (upset.mist_water.value_or(0.0) > 0.0 && fluid.kind == scenario::FluidKind::gas && upset.flow == 0.0) {
    item.error("mist_water",
               "is water carried by air, but no air flows meanwhile; give a flow, or leave it out");
  }
  bool any = false;
  for (const char* key : {"flow", "mist_water", "weight_on_bit", "rotary_speed", "pump"}) {
    any = any || item.has(key);
  }
  if (!any) {
    item.error("",
               "changes nothing; write pump: off, flow:, mist_water:, weight_on_bit: or rotary_speed: as it "
               "is meanwhile");
  }
}

}  // namespace

std::vector<scenario::Upset> read_upsets(MapReader& scenario, const scenario::FluidRecord& fluid,
                                         double bottom, int holes) {
  std::vector<scenario::Upset> upsets;
  const auto& items = scenario.list("upsets");
  for (std::size_t i = 0; i < items.size(); ++i) {
    MapReader item(items[i], "upsets." + std::to_string(i), scenario.reading(), scenario.location());
    scenario::Upset upset;
    upset.location = items[i].location;
    upset.from = item.required("from", base::dimension::depth, setting_range::depth, "41 m or 135 ft");
    if (bottom > 0.0 && upset.from >= bottom) {
      item.error("from", "is not above the column's bottom at " + base::depth_text(bottom) +
                             "; an upset begins while the bit drills");
    }
    upset.hole = read_hole(item, holes);
    upset.lasts = item.required("lasts", base::dimension::time, lasting_range, "90 s or 2 min");
    read_changes(item, fluid, upset);
    item.finish();
    upsets.push_back(upset);
  }
  return upsets;
}

}  // namespace dullcast::input
