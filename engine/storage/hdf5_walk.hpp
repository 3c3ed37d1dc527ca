#pragma once

#include <functional>
#include <string>

#include "engine/storage/tree_stream.hpp"

namespace dullcast::storage {

/// Sends all that the HDF5 file at `path` holds, of datasets only what `wanted` says (all when it is empty),
/// and its end; a refusal instead where something in it is none of what this program writes (read_stored_file
/// says what), claims more than its `file_size` bytes can hold, or cannot be read. For a child process
/// alone: HDF5 may crash, hang or ask for any memory on a file from elsewhere. Throws nothing.
void send_hdf5_file(const std::string& path, std::size_t file_size,
                    const std::function<bool(const std::string& path)>& wanted, tree_stream::Sender& sender);

}  // namespace dullcast::storage
