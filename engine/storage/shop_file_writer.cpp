#include <algorithm>
#include <functional>

#include "engine/base/file_error.hpp"
#include "engine/base/program_version.hpp"
#include "engine/storage/group_writer.hpp"
#include "engine/storage/hdf5_file_aside.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/shop_format.hpp"

namespace dullcast::storage {
namespace {

using shop_format::ShopField;
using shop_format::ShopFields;

/// The dimensions that several groups share, at the root.
struct ShopAxes {
  TableAxis spread, repair_class, place, week, day, bit;
};

/// A table that is not as long as it must be.
struct UnevenTable {
  std::string name;
};

void must_be(bool held, const std::string& name) {
  if (!held) throw UnevenTable{name};
}

template <class Row>
using Rows = std::vector<std::reference_wrapper<const Row>>;

template <class Row>
void put_shop_field(const GroupWriter& group, const Rows<Row>& rows, const ShopField<Row>& field,
                    TableAxes dims, const ShopAxes& axes) {
  const Label label{field.name, field.units, field.meaning};
  const auto put_member = [&]<class Value>(Value Row::*member) {
    if constexpr (std::is_same_v<Value, Spread>) {
      dims.push_back(axes.spread);
      std::vector<double> values;
      for (const Row& row : rows) {
        const Spread& one = row.*member;
        values.insert(values.end(), {one.mean, one.low, one.middle, one.high});
      }
      group.put(label, values, dims);
    } else if constexpr (std::is_same_v<Value, std::array<double, repair_classes>>) {
      dims.push_back(axes.repair_class);
      std::vector<double> values;
      for (const Row& row : rows) values.insert(values.end(), (row.*member).begin(), (row.*member).end());
      group.put(label, values, dims);
    } else {
      std::vector<Value> values;
      for (const Row& row : rows) {
        if constexpr (std::is_same_v<Value, int>)
          values.push_back(row.*member + field.added_in_file);
        else
          values.push_back(row.*member);
      }
      group.put(label, values, dims);
    }
  };
  std::visit(put_member, field.member);
}

template <class Row>
void put_shop_fields(const GroupWriter& group, const Rows<Row>& rows, const ShopFields<Row>& fields,
                     const TableAxes& dims, const ShopAxes& axes) {
  for (const ShopField<Row>& field : fields) put_shop_field(group, rows, field, dims, axes);
}

template <class Row>
Rows<Row> all_of(const std::vector<Row>& rows) {
  return {rows.begin(), rows.end()};
}

/// A group of rows along a dimension of its own, counted from 1.
template <class Row>
TableAxis put_shop_table(const GroupWriter& group, const std::vector<Row>& rows,
                         const ShopFields<Row>& fields, const std::string& dimension,
                         const std::string& meaning, const ShopAxes& axes) {
  TableAxis row = group.counting_dimension(dimension, rows.size(), meaning);
  put_shop_fields(group, all_of(rows), fields, {row}, axes);
  return row;
}

template <std::size_t Count>
TableAxis named_dimension(const GroupWriter& root, const std::string& name,
                          const std::array<const char*, Count>& words, const std::string& meaning) {
  return root.as_dimension(
      root.put({name, "", meaning}, std::vector<std::string>(words.begin(), words.end()), {{Count, {}}}),
      name);
}

std::array<const char*, bit_places> place_names() {
  std::array<const char*, bit_places> names{};
  for (std::size_t k = 0; k < bit_places; ++k) names[k] = bit_place_name(static_cast<BitPlace>(k));
  return names;
}

ShopAxes put_axes(const GroupWriter& root, const ShopOutlook& outlook) {
  ShopAxes axes;
  axes.spread = named_dimension(root, "spread", shop_format::spread_names,
                                "mean, and 10 %, 50 % and 90 % points over the futures");
  axes.repair_class =
      named_dimension(root, "repair_class", shop_format::repair_names, "what the shop does with a bit");
  axes.place = named_dimension(root, "place", place_names(), "where a bit is");
  axes.week = root.counting_dimension("week", outlook.weeks.size(), "week of the plan, counted from 1");
  const std::size_t days = outlook.bits.empty() ? 0 : outlook.bits.front().days.size();
  axes.day = root.counting_dimension("day", days, "day of the plan, counted from 1");
  axes.bit = root.counting_dimension("bit", outlook.bits.size(), "bit, counted from 1");
  return axes;
}

void put_stations(const GroupWriter& group, const ShopOutlook& outlook, const ShopAxes& axes) {
  const TableAxis row = put_shop_table(group, outlook.stations, shop_format::station_fields(), "station",
                                       "station, in the order in which bits pass", axes);
  Rows<StationWeek> weeks;
  for (const StationOutlook& station : outlook.stations) {
    must_be(station.weeks.size() == outlook.weeks.size(), "weeks of station " + station.name);
    weeks.insert(weeks.end(), station.weeks.begin(), station.weeks.end());
  }
  put_shop_fields(group, weeks, shop_format::station_week_fields(), {row, axes.week}, axes);
}

void put_cutters(const GroupWriter& group, const ShopOutlook& outlook, const ShopAxes& axes) {
  const TableAxis row = put_shop_table(group, outlook.cutters, shop_format::stock_fields(), "stock",
                                       "kind of cutter in stock, counted from 1", axes);
  Rows<CutterWeek> weeks;
  for (const CutterOutlook& cutter : outlook.cutters) {
    must_be(cutter.weeks.size() == outlook.weeks.size(), "weeks of cutter " + cutter.name);
    weeks.insert(weeks.end(), cutter.weeks.begin(), cutter.weeks.end());
  }
  put_shop_fields(group, weeks, shop_format::stock_week_fields(), {row, axes.week}, axes);
}

void put_bits(const GroupWriter& group, const ShopOutlook& outlook, const ShopAxes& axes) {
  put_shop_fields(group, all_of(outlook.bits), shop_format::fleet_fields(), {axes.bit}, axes);
  std::vector<double> shares;
  for (const BitOutlook& bit : outlook.bits) {
    must_be(bit.days.size() == axes.day.length, "days of bit " + bit.name);
    for (const auto& day : bit.days) shares.insert(shares.end(), day.begin(), day.end());
  }
  group.put({"days", "1", "share of futures in which it is at each place at noon of each day"}, shares,
            {axes.bit, axes.day, axes.place});
}

void put_holes(const GroupWriter& group, const ShopOutlook& outlook, const ShopAxes& axes) {
  const TableAxis row = put_shop_table(group, outlook.holes, shop_format::booked_fields(), "hole",
                                       "hole, by booked start, counted from 1", axes);
  std::vector<double> shares;
  for (const HoleOutlook& hole : outlook.holes) {
    must_be(hole.by_bit.size() == outlook.bits.size(), "bits of hole " + hole.name);
    shares.insert(shares.end(), hole.by_bit.begin(), hole.by_bit.end());
  }
  group.put({"by_bit", "1", "share of futures in which each bit begins it"}, shares, {row, axes.bit});
}

void put_shop(const H5::H5File& file, const ShopOutlook& outlook) {
  const GroupWriter root{file.openGroup("/")};
  root.file_head({outlook.title, shop_format::file_type, shop_format::major_version,
                  shop_format::minor_version, base::program_version(), base::program_commit()});
  root.long_attribute("plan", outlook.plan_text);
  const ShopAxes axes = put_axes(root, outlook);

  const GroupWriter summary = root.subgroup("summary", "the plan, and what it comes to");
  put_shop_fields(summary, {outlook}, shop_format::summary_fields(), {}, axes);
  static_assert(sizeof(long) == sizeof(long long));
  summary.put({"begins", "seconds since 1970-01-01 00:00:00", "first moment of the first day, UTC"},
              std::vector<long>{static_cast<long>(outlook.begins)}, {});
  put_shop_fields(root.subgroup("money", "money of one future"), {outlook.money},
                  shop_format::shop_money_fields(), {}, axes);
  put_shop_fields(root.subgroup("weeks", "one entry a week"), all_of(outlook.weeks),
                  shop_format::week_fields(), {axes.week}, axes);
  put_stations(root.subgroup("stations", "one entry a station"), outlook, axes);
  put_cutters(root.subgroup("cutters", "new cutters, one entry a kind"), outlook, axes);
  put_bits(root.subgroup("bits", "one entry a bit"), outlook, axes);
  put_holes(root.subgroup("holes", "one entry a hole that is booked"), outlook, axes);
  put_shop_table(root.subgroup("changes", "what one more of something changes, each tried alone"),
                 outlook.changes, shop_format::change_fields(), "change", "change, counted from 1", axes);
  put_shop_table(root.subgroup("early_pulls", "bits called in before they are due, the best first"),
                 outlook.early_pulls, shop_format::pull_fields(), "pull", "early pull, counted from 1", axes);
}

}  // namespace

void write_shop(const std::string& path, const ShopOutlook& outlook) {
  try {
    write_hdf5_file(path, "file", [&](const H5::H5File& file) { put_shop(file, outlook); });
  } catch (const UnevenTable& uneven) {
    throw base::FileError(path, "nothing written: the " + uneven.name + " are not as many as they must be");
  }
}

}  // namespace dullcast::storage
