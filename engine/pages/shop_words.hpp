#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/pages/shop_clock.hpp"
#include "engine/storage/shop_outlook.hpp"

/// What a shop's outlook comes to, in words that reports, pages and calendars share. Pure: the same outlook
/// gives the same words. Money and hours to two or three figures; "±" is two standard errors.
namespace dullcast::pages {

/// A mean over futures and its standard error tell a difference where the mean is two errors or more from
/// nothing (about one time in twenty they do so by chance alone). False for NaN and for nothing at all.
bool tells(double mean, double error);

/// "36 bits", "1 bit", "0.4 bits": a mean count with what is counted.
std::string count_words(double count, const std::string& what);
/// "12 h", "3.4 h" of s.
std::string hours_words(double seconds);
/// "2.5 days", "9 h" (less than two days) of s by the clock.
std::string clock_words(double seconds);
/// "middle 36, eight futures of ten from 32 to 40", values told by `tell`.
std::string middle_and_ends(const storage::Spread& spread, std::string (*tell)(double));
/// A rule, or that the bit failed: "worn height"; empty where there is none.
std::string due_rule_words(const std::string& rule);
/// "as it is", "new cutters", "pockets built up", "scrapped: a new bit": by condition::RepairClass.
std::string repair_class_words(std::size_t repair_class);
/// "in the shop, ready", "on a bench" and so on.
std::string place_words(storage::BitPlace place);

/// The bit that begins a hole in most futures; none where none does.
std::optional<std::size_t> likeliest_bit(const storage::HoleOutlook& hole);

/// The weeks in which most bits come in, at most three, by their means, the earliest first; empty where none
/// does. Weeks within a tenth of the busiest count with it.
std::vector<std::size_t> busiest_weeks(const storage::ShopOutlook& outlook);
/// "the weeks of 7 Apr and 14 Apr"; empty where no bit comes in.
std::string busiest_words(const storage::ShopOutlook& outlook, const ShopClock& clock);

/// "one more bench at braze in", "one more bit (four blades)", "one more shift: Saturday morning".
std::string change_name(const storage::ChangeOutlook& change);
/// The places of the changes in outlook.changes, the best first: those that save money by tells(), the most
/// first; then those that save rigs' time; then the others as they stand.
std::vector<std::size_t> best_changes_first(const storage::ShopOutlook& outlook);
/// Whether the futures tell any difference that it makes.
bool makes_a_difference(const storage::ChangeOutlook& change);
/// What it saves or costs of late holes, rigs' time and money, as far as the futures tell: "saves 14 h ± 3 h
/// of rigs standing and 1900 ± 400 EUR"; "makes no difference that these futures can tell".
std::string change_words(const storage::ChangeOutlook& change, const std::string& currency);
/// The same of a bit called in early.
std::string pull_words(const storage::EarlyPull& pull, const std::string& currency);
/// The answer to whether another bench, bit or shift is worth it: the best change in a sentence; that nothing
/// was tried, or that none makes a difference.
std::string answer_words(const storage::ShopOutlook& outlook);

}  // namespace dullcast::pages
