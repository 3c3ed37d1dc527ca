#include <algorithm>

#include "engine/base/file_error.hpp"
#include "engine/storage/group_reader.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/shop_format.hpp"

namespace dullcast::storage {
namespace {

using shop_format::ShopField;
using shop_format::ShopFields;
using Shape = GroupReader::Shape;

/// One field into all rows, which `shape` counts (empty: one).
template <class Row>
void get_shop_field(const GroupReader& group, const std::vector<Row*>& rows, const ShopField<Row>& field,
                    const Shape& shape) {
  // The rows' shape and one more dimension (push_back here g++ 12 takes for a write out of bounds).
  const auto by = [&](std::size_t more) {
    Shape all(shape.size() + 1, more);
    std::copy(shape.begin(), shape.end(), all.begin());
    return all;
  };
  const auto get_member = [&]<class Value>(Value Row::*member) {
    if constexpr (std::is_same_v<Value, Spread>) {
      std::vector<double> values;
      group.get(field.name, by(shop_format::spread_names.size()), values);
      for (std::size_t k = 0; k < rows.size(); ++k)
        rows[k]->*member = {values[4 * k], values[4 * k + 1], values[4 * k + 2], values[4 * k + 3]};
    } else if constexpr (std::is_same_v<Value, std::array<double, repair_classes>>) {
      std::vector<double> values;
      group.get(field.name, by(repair_classes), values);
      for (std::size_t k = 0; k < rows.size(); ++k)
        for (std::size_t c = 0; c < repair_classes; ++c)
          (rows[k]->*member)[c] = values[repair_classes * k + c];
    } else {
      std::vector<Value> values;
      group.get(field.name, shape, values);
      for (std::size_t k = 0; k < rows.size(); ++k) {
        if constexpr (std::is_same_v<Value, int>)
          rows[k]->*member = values[k] - field.added_in_file;
        else
          rows[k]->*member = values[k];
      }
    }
  };
  std::visit(get_member, field.member);
}

template <class Row>
void get_shop_fields(const GroupReader& group, const std::vector<Row*>& rows, const ShopFields<Row>& fields,
                     const Shape& shape) {
  for (const ShopField<Row>& field : fields) get_shop_field(group, rows, field, shape);
}

template <class Row>
std::vector<Row*> each_of(std::vector<Row>& rows) {
  std::vector<Row*> all;
  for (Row& row : rows) all.push_back(&row);
  return all;
}

template <class Row>
void get_shop_table(const GroupReader& group, std::vector<Row>& rows, std::size_t count,
                    const ShopFields<Row>& fields) {
  rows.resize(count);
  get_shop_fields(group, each_of(rows), fields, {count});
}

/// What stands in each week for each of several rows.
template <class Row, class Week>
void get_shop_weeks(const GroupReader& group, std::vector<Row>& rows, std::size_t weeks,
                    const ShopFields<Week>& fields) {
  std::vector<Week*> all;
  for (Row& row : rows) {
    row.weeks.resize(weeks);
    for (Week& week : row.weeks) all.push_back(&week);
  }
  get_shop_fields(group, all, fields, {rows.size(), weeks});
}

/// That a number, counted from 0 here, says which of `count` is meant.
void must_be_one_of(const GroupReader& group, const std::string& name, int number, std::size_t count,
                    int least = 0) {
  if (number < least || (number >= 0 && static_cast<std::size_t>(number) >= count))
    group.damaged(name, "names one that is not there");
}

void get_bits(const GroupReader& root, ShopOutlook& outlook) {
  const std::size_t count = root.length("bit"), days = root.length("day");
  constexpr std::size_t century = 36525;
  if (days > century) root.damaged("day", "counts more than a century");
  const GroupReader group = root.subgroup("bits");
  get_shop_table(group, outlook.bits, count, shop_format::fleet_fields());
  std::vector<double> shares;
  group.get("days", {count, days, bit_places}, shares);
  auto next = shares.begin();
  for (BitOutlook& bit : outlook.bits) {
    bit.days.resize(days);
    for (auto& day : bit.days)
      for (double& share : day) share = *next++;
  }
}

void get_holes(const GroupReader& root, ShopOutlook& outlook) {
  const GroupReader group = root.subgroup("holes");
  get_shop_table(group, outlook.holes, group.length("hole"), shop_format::booked_fields());
  const std::size_t bits = outlook.bits.size();
  std::vector<double> shares;
  group.get("by_bit", {outlook.holes.size(), bits}, shares);
  auto next = shares.begin();
  for (HoleOutlook& hole : outlook.holes) {
    hole.by_bit.assign(next, next + static_cast<std::ptrdiff_t>(bits));
    next += static_cast<std::ptrdiff_t>(bits);
  }
  for (const BitOutlook& bit : outlook.bits)
    must_be_one_of(root.subgroup("bits"), "due_after_hole", bit.due_after_hole, outlook.holes.size(), -1);
}

void get_pulls(const GroupReader& group, ShopOutlook& outlook) {
  get_shop_table(group, outlook.early_pulls, group.length("pull"), shop_format::pull_fields());
  for (const EarlyPull& pull : outlook.early_pulls) {
    must_be_one_of(group, "of_bit", pull.bit, outlook.bits.size());
    must_be_one_of(group, "after_hole", pull.after_hole, outlook.holes.size());
  }
}

}  // namespace

ShopOutlook read_shop(const std::string& path, Seal seal) {
  return shop_of(read_stored_file(path, shop_file, seal), path);
}

ShopOutlook shop_of(const StoredGroup& file, const std::string& path) {
  const GroupReader root(file, shop_file, path);
  const std::vector<int> version = root.version_of_kind();
  if (version[0] != shop_format::major_version)
    throw base::FileError(
        path,
        "this shop's outlook has format " + std::to_string(version[0]) + "." + std::to_string(version[1]) +
            "; this program reads format " + std::to_string(shop_format::major_version) +
            (version[0] > shop_format::major_version ? ": use a newer dullcast" : ": run its plan again"));
  ShopOutlook outlook;
  outlook.plan_text = root.long_text_attribute("plan");
  const GroupReader summary = root.subgroup("summary");
  get_shop_fields(summary, std::vector<ShopOutlook*>{&outlook}, shop_format::summary_fields(), {});
  std::vector<long> begins;
  summary.get("begins", {}, begins);
  outlook.begins = begins.front();
  get_shop_fields(root.subgroup("money"), std::vector<ShopMoney*>{&outlook.money},
                  shop_format::shop_money_fields(), {});
  const std::size_t weeks = root.length("week");
  get_shop_table(root.subgroup("weeks"), outlook.weeks, weeks, shop_format::week_fields());
  const GroupReader stations = root.subgroup("stations"), cutters = root.subgroup("cutters");
  get_shop_table(stations, outlook.stations, stations.length("station"), shop_format::station_fields());
  get_shop_weeks(stations, outlook.stations, weeks, shop_format::station_week_fields());
  get_shop_table(cutters, outlook.cutters, cutters.length("stock"), shop_format::stock_fields());
  get_shop_weeks(cutters, outlook.cutters, weeks, shop_format::stock_week_fields());
  get_bits(root, outlook);
  get_holes(root, outlook);
  const GroupReader changes = root.subgroup("changes");
  get_shop_table(changes, outlook.changes, changes.length("change"), shop_format::change_fields());
  get_pulls(root.subgroup("early_pulls"), outlook);
  return outlook;
}

}  // namespace dullcast::storage
