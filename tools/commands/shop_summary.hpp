#pragma once

#include <iosfwd>

#include "engine/storage/shop_outlook.hpp"

namespace dullcast::commands {

/// A shop's outlook in some ten lines: bits that come in and when most, late holes, turnaround, which station
/// is fullest, stock-outs, whether another bench, bit or shift is worth it, bits to call in early. Throws
/// std::invalid_argument for an unknown time zone.
void print_shop_summary(std::ostream& out, const storage::ShopOutlook& outlook);

}  // namespace dullcast::commands
