#include "engine/storage/seal_file.hpp"

#include <algorithm>

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/group_reader.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/sweep_file.hpp"

namespace dullcast::storage {
namespace {

constexpr StoredFileKind any_kind{"result", "dullcast run, sweep or shop", "copy it anew",
                                  sweep_file.most_bytes};

/// Which of the kinds it says it is. Nothing of its datasets is read.
StoredFileKind kind_of(const std::string& path) {
  const StoredGroup tree =
      read_stored_file(path, any_kind, Seal::may_be_missing, [](const std::string&) { return false; });
  const GroupReader root(tree, any_kind, path);
  const std::string type = root.has_attribute("file_type") ? root.text_attribute("file_type") : "";
  if (type == sweep_file.file_type) return sweep_file;
  return type == shop_file.file_type ? shop_file : run_file;
}

}  // namespace

std::string write_sealed_copy(const std::string& from, const std::string& to) {
  const std::vector<std::byte> bytes = base::read_whole_file(from, any_kind.most_bytes);
  const auto read = [&](std::size_t at, void* into, std::size_t count) {
    const std::size_t got = std::min(count, bytes.size() - at);
    std::copy_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), got, static_cast<std::byte*>(into));
    return got;
  };
  switch (verify_checksum(bytes.size(), read)) {
    case Checksum::intact:
      throw base::FileError(from, "this file ends with its checksum already, and needs no other");
    case Checksum::broken:
      throw base::FileError(
          from,
          "this file is damaged: its bytes do not agree with the checksum at its end, so no other "
          "is written; copy it anew");
    case Checksum::none:
      break;
  }
  const StoredFileKind kind = kind_of(from);
  if (std::string(kind.file_type) == sweep_file.file_type)
    read_sweep(from, Seal::may_be_missing);
  else if (std::string(kind.file_type) == shop_file.file_type)
    read_shop(from, Seal::may_be_missing);
  else
    read_result(from, Seal::may_be_missing);
  const std::vector<std::byte> checksum = checksum_of(bytes.size(), read);
  base::FileAside copy(to);
  copy.write_at(0, bytes.data(), bytes.size());
  copy.write_at(bytes.size(), checksum.data(), checksum.size());
  copy.keep();
  return kind.file_type;
}

}  // namespace dullcast::storage
