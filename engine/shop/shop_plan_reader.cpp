#include "engine/shop/shop_plan_reader.hpp"

#include <filesystem>
#include <optional>
#include <stdexcept>

#include "engine/input/bit_reader.hpp"
#include "engine/input/text_file.hpp"
#include "engine/shop/fleet_reader.hpp"
#include "engine/shop/holes_reader.hpp"
#include "engine/shop/stations_reader.hpp"
#include "engine/shop/time_reader.hpp"

namespace dullcast::shop {
namespace {

constexpr int fewest_futures = 2, most_futures = 100'000, most_pulls = 100;
constexpr std::int64_t most_days = 1000;
constexpr std::int64_t most_seed = 1'000'000'000'000'000;

/// The plan's days; those of one day in UTC where they cannot be read, so that the reading can go on.
PlanDays read_days(input::MapReader& top) {
  const auto zone = top.word("time_zone");
  if (!top.has("time_zone"))
    top.error("time_zone", "is missing; write the shop's name in the tz database, such as America/Winnipeg");
  const auto first = read_day(top, "from"), last = read_day(top, "to");
  if (!top.has("from")) top.error("from", "is missing; write the plan's first day, such as 2031-11-03");
  if (!top.has("to")) top.error("to", "is missing; write the plan's last day, such as 2032-04-30");
  const base::CivilDay begin = first.value_or(last.value_or(base::CivilDay{}));
  base::CivilDay end = last.value_or(begin);
  if (first && last && end < begin) top.error("to", "is before from:, the plan's first day");
  if (end.number - begin.number >= most_days)
    top.error("to", "makes a plan of " + std::to_string(end.number - begin.number + 1) +
                        " days; no plan has more than " + std::to_string(most_days));
  if (end < begin || end.number - begin.number >= most_days) end = begin;
  if (zone) {
    try {
      PlanDays days(*zone, begin, end);
      days.instant({end.number + days_after_plan + 2});  // where calendars end
      return days;
    } catch (const std::invalid_argument& failure) {
      top.error("time_zone", failure.what());
    } catch (const std::out_of_range& failure) {
      top.error("to", failure.what());
    }
  }
  return {"UTC", begin, end};
}

/// The library with the plan's own grades, lots and bodies.
input::Library library_of(const input::YamlValue& root, input::MapReader& top,
                          const input::Library& library) {
  input::Library result = library;
  input::YamlValue own;
  own.kind = input::YamlValue::Kind::map;
  own.location = root.location;
  for (const char* section : {"grades", "lots", "bodies"}) {
    top.find(section);
    if (const input::YamlEntry* entry = root.find(section)) own.entries.push_back(*entry);
  }
  input::MapReader map(own, "", top.reading(), top.location());
  input::read_own_entries(map, result);
  return result;
}

/// A design that is booked and of which there is no bit holds its rigs up for ever.
void check_designs(input::MapReader& top, const ShopPlan& plan) {
  for (std::size_t d = 0; d < plan.designs.size(); ++d) {
    const BookedHole* booked = nullptr;
    for (const BookedHole& hole : plan.holes) {
      if (hole.design == d && !booked) booked = &hole;
    }
    bool there = false;
    for (const FleetBit& bit : plan.bits) there = there || bit.design == d;
    if (booked && !there)
      top.reading().problems.error(booked->location, "design",
                                   "is " + input::quoted_text(plan.designs[d].name) +
                                       ", and bits: has none of that design: the hole could never begin");
  }
}

input::YamlValue parse_shop_plan(const std::string& text, const std::string& file,
                                 input::Problems& problems) {
  input::YamlValue root = input::parse_yaml(text, file, problems);
  if (!root.is_map() && !problems.any_error())
    problems.error(
        {file, 1, 1}, "",
        "holds " + input::kind_name(root) + "; a shop's plan is a map of keys such as shop: and holes:");
  problems.throw_if_any();
  return root;
}

/// Throws what is wrong in the plan and in the files that it leads to.
void throw_if_wrong(const input::Problems& problems, const std::vector<std::string>& other_files) {
  if (!problems.any_error() && other_files.empty()) return;
  std::vector<std::string> messages;
  std::size_t untold = 0;
  try {
    problems.throw_if_any();
  } catch (const input::ScenarioErrors& failure) {
    messages = failure.messages();
    untold = failure.count() - messages.size();
  }
  messages.insert(messages.end(), other_files.begin(), other_files.end());
  throw input::ScenarioErrors(messages, untold);
}

}  // namespace

ShopPlan read_shop_plan(const std::string& path, const input::ScenarioReader& reader,
                        std::vector<input::Warning>& warnings) {
  return read_shop_plan_text(input::read_text_file(path), path, reader, warnings);
}

ShopPlan read_shop_plan_text(const std::string& text, const std::string& file,
                             const input::ScenarioReader& reader, std::vector<input::Warning>& warnings) {
  input::Problems problems;
  const input::YamlValue root = parse_shop_plan(text, file, problems);
  input::Reading reading{reader.units(), problems, "$", nullptr, reader.keys()};
  input::MapReader top(root, "", reading, {file, 1, 1});
  ShopPlan plan;
  plan.file = std::filesystem::path(file).lexically_normal().string();
  plan.title = top.word("title").value_or(std::filesystem::path(file).stem().string());
  const PlanDays days = read_days(top);
  plan.time_zone = days.local().zone();
  plan.first_day = base::day_text(days.first());
  plan.begins = days.begins();
  plan.end = days.end();
  plan.weeks = days.weeks();
  plan.futures = top.whole_number("futures", fewest_futures, most_futures).value_or(plan.futures);
  plan.seed = top.long_whole_number("seed", 0, most_seed).value_or(plan.seed);
  plan.early_pulls = top.whole_number("early_pulls", 0, most_pulls).value_or(plan.early_pulls);

  PlanReading its{reader, days, std::filesystem::path(plan.file).parent_path().string(),
                  library_of(root, top, reader.library())};
  its.texts.push_back({plan.file, text});
  if (const auto learned = top.word("learned"))
    its.text_of(top, "learned", input::path_beside(*learned, its.folder));
  ShopSection shop = read_shop(top, its);
  plan.changes = read_changes(top, shop, its);
  plan.stations = std::move(shop.stations);
  plan.cutters = std::move(shop.cutters);
  plan.order = shop.order;
  plan.rigs = read_rigs(top, shop.off, its);
  const std::vector<WrittenDesign> designs = read_designs(top, plan.cutters, its);
  for (const WrittenDesign& design : designs) plan.designs.push_back(design.design);
  plan.bits = read_bits(top, designs, plan.rigs, its);
  plan.holes = read_holes(top, designs, plan.rigs, plan.bits, root, its, plan.currency);
  if (!problems.any_error()) check_designs(top, plan);
  top.finish();
  throw_if_wrong(problems, its.other_files);
  plan.texts = std::move(its.texts);
  warnings.insert(warnings.end(), problems.warnings().begin(), problems.warnings().end());
  warnings.insert(warnings.end(), its.unwise.begin(), its.unwise.end());
  return plan;
}

std::string texts_together(const ShopPlan& plan) {
  std::string all;
  for (const PlanText& one : plan.texts) {
    all += "==== " + one.file + "\n" + one.text;
    if (!all.ends_with('\n')) all += '\n';
  }
  return all;
}

}  // namespace dullcast::shop
