#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "engine/storage/shop_outlook.hpp"

namespace dullcast::commands {

/// A shop's outlook as tables for a spreadsheet (RFC 4180): local dates ("2031-11-03") and times, hours,
/// metres, money; an empty cell where nothing is known. What differs from future to future has a column each
/// for its mean and its 10 %, 50 % and 90 % points ("_mean", "_low", "_middle", "_high").
///
/// One row a week: bits that come in, in all and by what is then due; late holes; of each station hours of
/// bench work needed and open and bits that wait; of each kind of cutter how many are needed and the chance
/// of a stock-out.
void write_shop_weeks(std::ostream& out, const storage::ShopOutlook& outlook);
/// One row a bit: when it is due, by which rule, after which hole, what the shop then does.
void write_shop_bits(std::ostream& out, const storage::ShopOutlook& outlook);
/// One row a hole: booked, begun and finished, how likely and by how much late.
void write_shop_holes(std::ostream& out, const storage::ShopOutlook& outlook);
/// One row a change that was tried, then one a bit called in early.
void write_shop_changes(std::ostream& out, const storage::ShopOutlook& outlook);

/// The files that `--csv FILE` stands for, FILE being "shop.csv": "shop_weeks.csv", "shop_bits.csv",
/// "shop_holes.csv", "shop_changes.csv".
std::vector<std::string> shop_csv_files(const std::string& file);
/// Writes the four of them. Throws base::FileError; std::invalid_argument for an unknown time zone.
void write_shop_csv(const std::string& file, const storage::ShopOutlook& outlook);

}  // namespace dullcast::commands
