#include "engine/storage/changed_file.hpp"

#include <algorithm>

#include "engine/base/whole_file.hpp"
#include "engine/storage/checksum.hpp"

namespace dullcast::storage::changed_file {

void seal(const std::string& path) {
  std::vector<std::byte> bytes = base::read_whole_file(path);
  const auto read = [&](std::size_t at, void* to, std::size_t count) {
    const std::size_t got = std::min(count, bytes.size() - at);
    std::copy_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), got, static_cast<std::byte*>(to));
    return got;
  };
  constexpr std::size_t length = 16;
  if (verify_checksum(bytes.size(), read) != Checksum::none) bytes.resize(bytes.size() - length);
  const std::vector<std::byte> checksum = checksum_of(bytes.size(), read);
  bytes.insert(bytes.end(), checksum.begin(), checksum.end());
  base::write_whole_file(path, bytes);
}

void change(const std::string& path, const std::function<void(H5::H5File&)>& how) {
  H5::Exception::dontPrint();
  {
    H5::H5File file(path, H5F_ACC_RDWR);
    how(file);
  }
  seal(path);
}

}  // namespace dullcast::storage::changed_file
