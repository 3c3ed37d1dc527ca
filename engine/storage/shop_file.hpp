#pragma once

#include <string>

#include "engine/storage/shop_outlook.hpp"
#include "engine/storage/stored_file.hpp"

namespace dullcast::storage {

inline constexpr StoredFileKind shop_file{"shop's outlook", "dullcast shop",
                                          "copy it anew, or run its plan again", std::size_t{1} << 30};

/// Writes a shop's outlook to the HDF5 file `path`, laid out as results/README.md says (SI units; bits, holes
/// and weeks counted from 1). The file appears whole or not at all, replaces an earlier one, and the same
/// outlook gives the same bytes. Every station and kind of cutter must have one entry a week, every hole one
/// a bit, and all bits as many days. Throws FileError for a path that cannot be written and for tables of
/// another length.
void write_shop(const std::string& path, const ShopOutlook& outlook);

/// Reads it, wherever it comes from (read_stored_file): every member as it was written, texts as base::plain
/// tells them but the plan's own. Throws FileError: no such file, no shop's outlook, a newer format, without
/// a checksum where `seal` requires one, or damaged.
ShopOutlook read_shop(const std::string& path, Seal seal = Seal::required);

/// The same of what such a file holds; `path` is the name for messages.
ShopOutlook shop_of(const StoredGroup& file, const std::string& path);

}  // namespace dullcast::storage
