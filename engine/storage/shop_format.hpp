#pragma once

#include <array>
#include <string>
#include <variant>
#include <vector>

#include "engine/storage/shop_outlook.hpp"

/// What the datasets of a shop's file are called, in which unit and what they mean: stated once, used by the
/// writer and by the reader.
namespace dullcast::storage::shop_format {

inline constexpr const char* file_type = "dullcast shop";
// A reader reads any minor version of its own major version; see results/README.md.
inline constexpr int major_version = 1, minor_version = 0;

/// The places of a Spread, along the dimension `spread`.
inline constexpr std::array<const char*, 4> spread_names{"mean", "low", "middle", "high"};
/// As condition::repair_name says them, along the dimension `repair_class`.
inline constexpr std::array<const char*, repair_classes> repair_names{"none", "replace_cutters",
                                                                      "rebuild_pockets", "scrap"};

template <class Row>
using ShopMember = std::variant<double Row::*, int Row::*, std::string Row::*, Spread Row::*,
                                std::array<double, repair_classes> Row::*>;

/// One dataset: a member of Row. A Spread has the dimension `spread` beside those of its rows, an array
/// `repair_class`.
template <class Row>
struct ShopField {
  const char* name;
  const char* units;    // as UDUNITS reads it; text has none
  const char* meaning;  // the dataset's long_name
  ShopMember<Row> member;
  int added_in_file = 0;  // to numbers that the program counts from 0
};

template <class Row>
using ShopFields = std::vector<ShopField<Row>>;

ShopFields<ShopOutlook> summary_fields();
ShopFields<ShopMoney> shop_money_fields();
ShopFields<WeekOutlook> week_fields();
ShopFields<StationOutlook> station_fields();
ShopFields<StationWeek> station_week_fields();
ShopFields<CutterOutlook> stock_fields();
ShopFields<CutterWeek> stock_week_fields();
ShopFields<BitOutlook> fleet_fields();
ShopFields<HoleOutlook> booked_fields();
ShopFields<ChangeOutlook> change_fields();
ShopFields<EarlyPull> pull_fields();

}  // namespace dullcast::storage::shop_format
