#include "engine/storage/shop_format.hpp"

namespace dullcast::storage::shop_format {

ShopFields<ShopOutlook> summary_fields() {
  using T = ShopOutlook;
  return {
      {"title", "", "title of the plan", &T::title},
      {"file", "", "file of the plan, as it was given", &T::file},
      {"time_zone", "", "zone of local times, its name in the IANA time zone database", &T::time_zone},
      {"first_day", "", "first day of the plan, ISO 8601, local", &T::first_day},
      {"end", "s", "end of what is looked at, since the first day began", &T::end},
      {"currency", "", "what money is counted in", &T::currency},
      {"futures", "1", "futures that were run", &T::futures},
      {"failed", "1", "futures that could not be run, not among them", &T::failed},
      {"first_failure", "", "what the first of those said", &T::first_failure},
      {"arrivals", "1", "bits that come into the shop", &T::arrivals},
      {"turnaround", "s", "time from a bit's arrival to ready, by the clock, of all visits", &T::turnaround},
      {"late_holes", "1", "holes that begin late for want of a bit", &T::late_holes},
      {"late_time", "s", "time of their own hours that rigs stand for want of a bit", &T::late_time},
      {"pulls_tried", "1", "early pulls looked at", &T::pulls_tried},
  };
}

ShopFields<ShopMoney> shop_money_fields() {
  using T = ShopMoney;
  return {
      {"repairs", "1", "money for work and cutters of repairs begun", &T::repairs},
      {"new_bits", "1", "money for new bits in place of scrapped ones", &T::new_bits},
      {"rigs_waiting", "1", "money for rigs that stand for want of a bit", &T::rigs_waiting},
      {"worn", "1", "money that the bits' condition costs at the end more than at the beginning", &T::worn},
      {"total", "1", "money in all", &T::total},
      {"repairs_done", "1", "repairs begun, mean", &T::repairs_done},
      {"repair_mean", "1", "money a repair, mean; NaN: none", &T::repair_mean},
      {"new_bit", "1", "money for a new bit, mean over those that came in for repair; NaN: none",
       &T::new_bit},
  };
}

ShopFields<WeekOutlook> week_fields() {
  using T = WeekOutlook;
  return {
      {"begin", "s", "begin of the week, Monday, local, since the plan's first day began", &T::begin},
      {"end", "s", "its end", &T::end},
      {"arrivals", "1", "bits that come into the shop", &T::arrivals},
      {"by_class", "1", "bits that come into the shop by what is then due, mean", &T::by_class},
      {"holes_late", "1", "holes booked in the week that begin late for want of a bit", &T::holes_late},
  };
}

ShopFields<StationOutlook> station_fields() {
  using T = StationOutlook;
  return {
      {"name", "", "name of the station", &T::name},
      {"benches", "1", "benches that it has", &T::benches},
      {"utilisation", "1", "bench work over what is open, from begin to end of the plan", &T::utilisation},
      {"wait", "s", "time from arrival to the begin of work, by the clock, of all visits", &T::wait},
      {"visits", "1", "visits, mean", &T::visits},
      {"waiting", "1", "bits that wait, mean over time and futures", &T::waiting},
  };
}

ShopFields<StationWeek> station_week_fields() {
  using T = StationWeek;
  return {
      {"week_work", "s", "bench work done in each week", &T::work},
      {"week_open", "s", "time that its benches are at work in each week, all together", &T::open},
      {"week_waiting", "1", "bits that wait in each week, mean", &T::waiting},
  };
}

ShopFields<CutterOutlook> stock_fields() {
  using T = CutterOutlook;
  return {
      {"name", "", "name of the kind of cutter", &T::name},
      {"diameter", "m", "diameter", &T::diameter},
      {"grade", "", "cutter grade", &T::grade},
      {"needed", "1", "new cutters needed in all", &T::needed},
      {"least", "1", "fewest in the hand", &T::least},
      {"stock_out", "1", "share of futures in which a bit waits for cutters at all", &T::stock_out},
      {"wait", "s", "wait of the bits that wait for cutters, by the clock; NaN: none did", &T::wait},
  };
}

ShopFields<CutterWeek> stock_week_fields() {
  using T = CutterWeek;
  return {
      {"week_needed", "1", "new cutters that bits take, or wait for, in each week", &T::needed},
      {"week_stock_out", "1", "share of futures in which some bit waits for cutters in each week",
       &T::stock_out},
  };
}

ShopFields<BitOutlook> fleet_fields() {
  using T = BitOutlook;
  return {
      {"name", "", "name of the bit", &T::name},
      {"design", "", "its design", &T::design},
      {"told_by", "", "how its condition at the beginning is known", &T::told_by},
      {"due_probability", "1", "share of futures in which its rework falls due, or it fails, in the plan",
       &T::due_probability},
      {"due", "s", "when that happens first, since the plan's first day began, over those futures", &T::due},
      {"due_after_hole", "1", "hole in which it happens most often, counted from 1; 0: none",
       &T::due_after_hole, 1},
      {"due_rule", "", "rule that does it most often; failed: it stopped drilling", &T::due_rule},
      {"by_class", "1", "share of those futures by what the shop then does", &T::by_class},
      {"metres", "m", "length that it drills in the plan", &T::metres},
      {"shop_visits", "1", "visits to the shop in the plan", &T::shop_visits},
  };
}

ShopFields<HoleOutlook> booked_fields() {
  using T = HoleOutlook;
  return {
      {"name", "", "name of the hole", &T::name},
      {"rig", "", "rig that drills it", &T::rig},
      {"design", "", "design of bit that it takes", &T::design},
      {"booked", "s", "when it is to begin, since the plan's first day began", &T::booked},
      {"late_probability", "1", "share of futures in which it begins late for want of a bit",
       &T::late_probability},
      {"late", "s", "time of the rig's own hours that it stands for want of a bit, over all futures",
       &T::late},
      {"begun", "s", "when it begins", &T::begun},
      {"finished", "s", "when it is finished", &T::finished},
      {"unfinished", "1", "share of futures in which it is not finished in the plan's time", &T::unfinished},
      {"due_in_it", "1", "share of futures in which a bit falls due or fails in it", &T::due_in_it},
      {"fetched", "1", "bits fetched because one failed, mean", &T::fetched},
  };
}

ShopFields<ChangeOutlook> change_fields() {
  using T = ChangeOutlook;
  return {
      {"kind", "", "what there is one more of: bench, bit or shift", &T::kind},
      {"name", "", "name of the station, the design, or the shift", &T::name},
      {"late_holes", "1", "holes that begin late for want of a bit, with it", &T::late_holes},
      {"late_time", "s", "time that rigs stand for want of a bit, with it", &T::late_time},
      {"turnaround", "s", "time from a bit's arrival to ready, with it", &T::turnaround},
      {"total", "1", "money in all, with it", &T::total},
      {"late_holes_more", "1", "holes that begin late more than without it, mean", &T::late_holes_more},
      {"late_holes_error", "1", "standard error of that mean", &T::late_holes_error},
      {"late_time_more", "s", "time that rigs stand more than without it, mean", &T::late_time_more},
      {"late_time_error", "s", "standard error of that mean", &T::late_time_error},
      {"total_more", "1", "money more than without it, mean, without what the change itself costs",
       &T::total_more},
      {"total_error", "1", "standard error of that mean", &T::total_error},
  };
}

ShopFields<EarlyPull> pull_fields() {
  using T = EarlyPull;
  return {
      {"of_bit", "1", "bit that is called in, counted from 1", &T::bit, 1},
      {"after_hole", "1", "hole after which it comes out, counted from 1", &T::after_hole, 1},
      {"at", "s", "when it comes out, middle over futures, since the plan's first day began", &T::at},
      {"in_use", "1", "share of futures in which there is such a pull", &T::in_use},
      {"late_holes_more", "1", "holes that begin late more than without it, mean", &T::late_holes_more},
      {"late_holes_error", "1", "standard error of that mean", &T::late_holes_error},
      {"late_time_more", "s", "time that rigs stand more than without it, mean", &T::late_time_more},
      {"late_time_error", "s", "standard error of that mean", &T::late_time_error},
      {"total_more", "1", "money more than without it, mean", &T::total_more},
      {"total_error", "1", "standard error of that mean", &T::total_error},
  };
}

}  // namespace dullcast::storage::shop_format
