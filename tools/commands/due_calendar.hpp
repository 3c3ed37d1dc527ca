#pragma once

#include <cstdint>
#include <string>

#include "engine/storage/shop_outlook.hpp"

namespace dullcast::commands {

/// A shop's due dates as a calendar that calendar programs take (RFC 5545), of whole local days: of each bit
/// that may fall due the middle of its date, with chance, 10 % and 90 % dates, rule and hole; each bit to
/// call in early; each hole that is likelier than not to begin late for want of a bit. Entries take up no
/// time of whoever keeps the calendar, and a later calendar of the same plan (by its file's name and its
/// title) replaces its entries in place. `stamp` (s since 1970-01-01 UTC, 0 or more) is the moment that
/// entries state they were made. Lines end in CRLF and have 75 octets at most. Throws std::invalid_argument
/// for an unknown time zone, std::bad_alloc.
std::string due_calendar(const storage::ShopOutlook& outlook, std::int64_t stamp);

}  // namespace dullcast::commands
