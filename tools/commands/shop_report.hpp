#pragma once

#include "engine/storage/shop_outlook.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// What a shop's plan comes to: bits that come in, holes that wait for one, what would help, benches, bits,
/// cutters, holes at risk, money. `brief`: the first of these only.
void print_shop(const Sheet& sheet, const storage::ShopOutlook& outlook, bool brief);

}  // namespace dullcast::commands
