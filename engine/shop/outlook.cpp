#include "engine/shop/outlook.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>

#include "engine/shop/future_figures.hpp"

namespace dullcast::shop {
namespace {

using storage::BitPlace;
using storage::Spread;
using Logs = std::vector<const FutureLog*>;

constexpr double day = 86400.0;

Spread over(const Logs& futures, const std::function<double(const FutureLog&)>& value) {
  std::vector<double> values;
  values.reserve(futures.size());
  for (const FutureLog* log : futures) values.push_back(value(*log));
  return spread_of(std::move(values));
}

double share(const Logs& futures, const std::function<bool(const FutureLog&)>& so) {
  double count = 0.0;
  for (const FutureLog* log : futures) count += so(*log) ? 1.0 : 0.0;
  return futures.empty() ? 0.0 : count / static_cast<double>(futures.size());
}

double mean(const Logs& futures, const std::function<double(const FutureLog&)>& value) {
  double sum = 0.0;
  for (const FutureLog* log : futures) sum += value(*log);
  return futures.empty() ? 0.0 : sum / static_cast<double>(futures.size());
}

/// s of bench work of all visits within a week.
double work_in(const std::vector<BenchVisit>& visits, const WorkCalendar& open, Instant from, Instant to) {
  double work = 0.0;
  for (const BenchVisit& visit : visits)
    if (visit.begun < to && visit.done > from)
      work += open.work_between(std::max(visit.begun, from), std::min(visit.done, to));
  return work;
}

bool in(Instant t, Instant from, Instant to) {
  return t >= from && t < to;
}

storage::StationOutlook station_outlook(const ShopPlan& plan, const Logs& futures, std::size_t s) {
  const Station& station = plan.stations[s];
  storage::StationOutlook outlook;
  outlook.name = station.name;
  outlook.benches = station.benches;
  const auto all_open = [&](Instant from, Instant to) {
    return station.benches * station.open.work_between(from, to);
  };
  outlook.utilisation = over(futures, [&](const FutureLog& log) {
    return work_in(log.stations[s], station.open, 0.0, plan.end) / all_open(0.0, plan.end);
  });
  std::vector<double> waits;
  for (const FutureLog* log : futures)
    for (const BenchVisit& visit : log->stations[s])
      if (visit.begun < never) waits.push_back(visit.begun - visit.arrived);
  outlook.wait = spread_of(std::move(waits));
  outlook.visits =
      mean(futures, [&](const FutureLog& log) { return static_cast<double>(log.stations[s].size()); });
  outlook.waiting =
      mean(futures, [&](const FutureLog& log) { return mean_waiting(log.stations[s], 0.0, plan.end); });
  for (std::size_t w = 0; w + 1 < plan.weeks.size(); ++w) {
    const Instant from = std::max(0.0, plan.weeks[w]), to = std::min(plan.end, plan.weeks[w + 1]);
    storage::StationWeek week;
    week.work =
        over(futures, [&](const FutureLog& log) { return work_in(log.stations[s], station.open, from, to); });
    week.open = all_open(from, to);
    week.waiting =
        mean(futures, [&](const FutureLog& log) { return mean_waiting(log.stations[s], from, to); });
    outlook.weeks.push_back(week);
  }
  return outlook;
}

storage::CutterOutlook cutter_outlook(const ShopPlan& plan, const Logs& futures, std::size_t k) {
  const CutterStock& stock = plan.cutters[k];
  storage::CutterOutlook outlook;
  outlook.name = stock.name;
  outlook.diameter = stock.diameter;
  outlook.grade = stock.grade;
  const auto needed = [&](const FutureLog& log, Instant from, Instant to) {
    double sum = 0.0;
    for (const CutterTake& take : log.takes) sum += in(take.asked, from, to) ? take.cutters[k] : 0;
    return sum;
  };
  // A bit waits for this kind where it asked for it and did not get all that it needs at once.
  const auto waits = [&](const FutureLog& log, Instant from, Instant to) {
    return std::any_of(log.takes.begin(), log.takes.end(), [&](const CutterTake& take) {
      return take.cutters[k] > 0 && take.got > take.asked && take.asked < to && take.got > from;
    });
  };
  outlook.needed = over(futures, [&](const FutureLog& log) { return needed(log, 0.0, plan.end); });
  outlook.least = over(futures, [&](const FutureLog& log) { return log.least_cutters[k]; });
  outlook.stock_out = share(futures, [&](const FutureLog& log) { return waits(log, 0.0, plan.end); });
  std::vector<double> waited;
  for (const FutureLog* log : futures)
    for (const CutterTake& take : log->takes)
      if (take.cutters[k] > 0 && take.got > take.asked)
        waited.push_back(std::min(take.got, plan.end) - take.asked);
  outlook.wait = spread_of(std::move(waited));
  for (std::size_t w = 0; w + 1 < plan.weeks.size(); ++w) {
    const Instant from = plan.weeks[w], to = plan.weeks[w + 1];
    outlook.weeks.push_back({over(futures, [&](const FutureLog& log) { return needed(log, from, to); }),
                             share(futures, [&](const FutureLog& log) { return waits(log, from, to); })});
  }
  return outlook;
}

/// The key that occurs most often; the first of equals.
template <class Key>
Key most_often(const std::map<Key, int>& counts, Key none) {
  int most = 0;
  Key found = none;
  for (const auto& [key, count] : counts) {
    if (count <= most) continue;
    most = count;
    found = key;
  }
  return found;
}

storage::BitOutlook bit_outlook(const ShopPlan& plan, const Logs& futures, std::size_t bit) {
  const FleetBit& given = plan.bits[bit];
  storage::BitOutlook outlook;
  outlook.name = given.name;
  outlook.design = plan.designs[given.design].name;
  outlook.told_by = given.told_by;
  std::vector<double> due;
  std::map<int, int> holes;
  std::map<std::string, int> rules;
  for (const FutureLog* log : futures) {
    const auto first =
        std::find_if(log->out.begin(), log->out.end(), [&](const OutOfHole& out) { return out.bit == bit; });
    if (first == log->out.end()) continue;
    due.push_back(first->at);
    ++holes[static_cast<int>(first->hole)];
    ++rules[first->why];
    outlook.by_class[static_cast<std::size_t>(first->kind)] += 1.0;
  }
  const auto fell = static_cast<double>(due.size());
  for (double& one : outlook.by_class) one = fell > 0.0 ? one / fell : 0.0;
  outlook.due_probability = futures.empty() ? 0.0 : fell / static_cast<double>(futures.size());
  outlook.due_after_hole = most_often(holes, -1);
  outlook.due_rule = most_often(rules, std::string());
  outlook.due = spread_of(std::move(due));
  outlook.metres = over(futures, [&](const FutureLog& log) { return log.metres[bit]; });
  outlook.shop_visits = over(futures, [&](const FutureLog& log) {
    return static_cast<double>(std::count_if(log.stays.begin(), log.stays.end(),
                                             [&](const ShopStay& stay) { return stay.bit == bit; }));
  });
  const auto days = static_cast<std::size_t>(std::ceil(plan.end / day));
  outlook.days.assign(days, {});
  for (const FutureLog* log : futures) {
    const std::vector<PlaceChange>& changes = log->places[bit];
    std::size_t next = 0;
    for (std::size_t d = 0; d < days; ++d) {
      const Instant noon = (static_cast<double>(d) + 0.5) * day;
      while (next < changes.size() && changes[next].at <= noon) ++next;
      const BitPlace place = next == 0 ? BitPlace::not_there : changes[next - 1].place;
      outlook.days[d][static_cast<std::size_t>(place)] += 1.0 / static_cast<double>(futures.size());
    }
  }
  return outlook;
}

storage::HoleOutlook hole_outlook(const ShopPlan& plan, const Logs& futures, std::size_t h) {
  const BookedHole& given = plan.holes[h];
  storage::HoleOutlook outlook;
  outlook.name = given.name;
  outlook.rig = plan.rigs[given.rig].name;
  outlook.design = plan.designs[given.design].name;
  outlook.booked = given.booked;
  const auto number = [](Instant t) { return t < never ? t : std::numeric_limits<double>::quiet_NaN(); };
  outlook.late_probability = share(futures, [&](const FutureLog& log) { return log.holes[h].begins_late; });
  outlook.late = over(futures, [&](const FutureLog& log) { return log.holes[h].late; });
  outlook.begun = over(futures, [&](const FutureLog& log) { return number(log.holes[h].begun); });
  outlook.finished = over(futures, [&](const FutureLog& log) { return number(log.holes[h].finished); });
  outlook.unfinished = share(futures, [&](const FutureLog& log) { return !(log.holes[h].finished < never); });
  outlook.due_in_it = share(futures, [&](const FutureLog& log) { return log.holes[h].falls_due; });
  outlook.fetched = mean(futures, [&](const FutureLog& log) { return log.holes[h].fetched; });
  for (std::size_t bit = 0; bit < plan.bits.size(); ++bit)
    outlook.by_bit.push_back(share(futures, [&](const FutureLog& log) { return log.holes[h].bit == bit; }));
  return outlook;
}

std::vector<storage::WeekOutlook> week_outlooks(const ShopPlan& plan, const Logs& futures) {
  std::vector<storage::WeekOutlook> weeks;
  for (std::size_t w = 0; w + 1 < plan.weeks.size(); ++w) {
    storage::WeekOutlook week;
    week.begin = plan.weeks[w];
    week.end = plan.weeks[w + 1];
    const auto arrive = [&](const FutureLog& log, int kind) {
      return static_cast<double>(std::count_if(log.stays.begin(), log.stays.end(), [&](const ShopStay& stay) {
        return in(stay.arrived, week.begin, week.end) && (kind < 0 || static_cast<int>(stay.kind) == kind);
      }));
    };
    week.arrivals = over(futures, [&](const FutureLog& log) { return arrive(log, -1); });
    for (std::size_t kind = 0; kind < storage::repair_classes; ++kind)
      week.by_class[kind] =
          mean(futures, [&](const FutureLog& log) { return arrive(log, static_cast<int>(kind)); });
    week.holes_late = over(futures, [&](const FutureLog& log) {
      double late = 0.0;
      for (std::size_t h = 0; h < plan.holes.size(); ++h)
        late += in(plan.holes[h].booked, week.begin, week.end) && log.holes[h].begins_late ? 1.0 : 0.0;
      return late;
    });
    weeks.push_back(week);
  }
  return weeks;
}

storage::ShopMoney money_of(const Logs& futures) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  storage::ShopMoney money;
  money.repairs = over(futures, [](const FutureLog& log) { return log.repairs; });
  money.new_bits = over(futures, [](const FutureLog& log) { return log.new_bits; });
  money.rigs_waiting = over(futures, [](const FutureLog& log) { return log.rigs_waiting; });
  money.worn = over(futures, [](const FutureLog& log) { return log.worn; });
  money.total = over(futures, [](const FutureLog& log) { return log.total(); });
  money.repairs_done = mean(futures, [](const FutureLog& log) { return log.repairs_done; });
  const double repairs = money.repairs_done > 0.0 ? money.repairs_done : none;
  money.repair_mean = money.repairs.mean / repairs;
  money.new_bit = mean(futures, [](const FutureLog& log) { return log.price_of_new; }) / repairs;
  return money;
}

}  // namespace

storage::ShopOutlook outlook_of(const ShopPlan& plan, const std::vector<const FutureLog*>& futures) {
  storage::ShopOutlook outlook;
  outlook.title = plan.title;
  outlook.file = plan.file;
  outlook.time_zone = plan.time_zone;
  outlook.first_day = plan.first_day;
  outlook.begins = plan.begins;
  outlook.end = plan.end;
  outlook.futures = static_cast<int>(futures.size());
  outlook.currency = plan.currency;
  outlook.arrivals =
      over(futures, [](const FutureLog& log) { return static_cast<double>(log.stays.size()); });
  std::vector<double> turnarounds;
  for (const FutureLog* log : futures) {
    const std::vector<double> of_future = figures_of(*log).turnarounds;
    turnarounds.insert(turnarounds.end(), of_future.begin(), of_future.end());
  }
  outlook.turnaround = spread_of(std::move(turnarounds));
  outlook.late_holes = over(futures, [](const FutureLog& log) { return log.late_holes(); });
  outlook.late_time = over(futures, [](const FutureLog& log) { return log.late_time(); });
  outlook.money = money_of(futures);
  outlook.weeks = week_outlooks(plan, futures);
  for (std::size_t s = 0; s < plan.stations.size(); ++s)
    outlook.stations.push_back(station_outlook(plan, futures, s));
  for (std::size_t k = 0; k < plan.cutters.size(); ++k)
    outlook.cutters.push_back(cutter_outlook(plan, futures, k));
  for (std::size_t bit = 0; bit < plan.bits.size(); ++bit)
    outlook.bits.push_back(bit_outlook(plan, futures, bit));
  for (std::size_t h = 0; h < plan.holes.size(); ++h) outlook.holes.push_back(hole_outlook(plan, futures, h));
  return outlook;
}

}  // namespace dullcast::shop
