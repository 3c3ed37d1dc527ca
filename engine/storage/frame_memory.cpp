#include "engine/storage/frame_memory.hpp"

#include <H5FDpublic.h>

#include <algorithm>
#include <cstring>
#include <exception>

namespace dullcast::storage {

/// A virtual file driver (HDF5 reference manual, "Virtual File Layer"): HDF5 keeps a Handle for the open file
/// and calls these functions with it.
struct FrameMemory::Driver {
  struct Handle {
    H5FD_t common;  // HDF5's own, which must come first
    FrameMemory* memory;
    haddr_t allocated;
  };
  /// What the access properties carry to open().
  struct Settings {
    FrameMemory* memory;
  };

  static Handle* handle(H5FD_t* file) { return reinterpret_cast<Handle*>(file); }
  static const Handle* handle(const H5FD_t* file) { return reinterpret_cast<const Handle*>(file); }

  static H5FD_t* open(const char*, unsigned, hid_t access, haddr_t) {
    const auto* settings = static_cast<const Settings*>(H5Pget_driver_info(access));
    if (settings == nullptr) return nullptr;
    try {
      return &(new Handle{{}, settings->memory, 0})->common;
    } catch (const std::exception&) {
      return nullptr;
    }
  }
  static herr_t close(H5FD_t* file) {
    delete handle(file);
    return 0;
  }
  /// As HDF5's own driver for files on a disk, so that files are laid out alike.
  static herr_t query(const H5FD_t*, unsigned long* flags) {
    if (flags != nullptr)
      *flags = H5FD_FEAT_AGGREGATE_METADATA | H5FD_FEAT_ACCUMULATE_METADATA | H5FD_FEAT_DATA_SIEVE |
               H5FD_FEAT_AGGREGATE_SMALLDATA;
    return 0;
  }
  static haddr_t get_eoa(const H5FD_t* file, H5FD_mem_t) { return handle(file)->allocated; }
  static herr_t set_eoa(H5FD_t* file, H5FD_mem_t, haddr_t address) {
    handle(file)->allocated = address;
    return 0;
  }
  static haddr_t get_eof(const H5FD_t* file, H5FD_mem_t) { return handle(file)->memory->end_; }
  static herr_t truncate(H5FD_t* file, hid_t, hbool_t) {
    handle(file)->memory->end_ = handle(file)->allocated;
    return 0;
  }

  /// Calls `each(page number, offset in the page, offset in the buffer, count)` for a run of bytes.
  template <class Each>
  static void by_pages(haddr_t address, std::size_t size, const Each& each) {
    for (std::size_t done = 0; done < size;) {
      const auto within = static_cast<std::size_t>((address + done) % page_size);
      const std::size_t count = std::min(page_size - within, size - done);
      each((address + done) / page_size, within, done, count);
      done += count;
    }
  }
  static herr_t read(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t address, std::size_t size, void* buffer) {
    const auto& pages = handle(file)->memory->pages_;
    by_pages(address, size, [&](haddr_t number, std::size_t within, std::size_t done, std::size_t count) {
      const auto found = pages.find(number);
      auto* to = static_cast<std::byte*>(buffer) + done;
      if (found == pages.end()) {
        std::memset(to, 0, count);
      } else {
        std::memcpy(to, found->second.data() + within, count);
      }
    });
    return 0;
  }
  static herr_t write(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t address, std::size_t size,
                      const void* buffer) {
    FrameMemory& memory = *handle(file)->memory;
    try {
      by_pages(address, size, [&](haddr_t number, std::size_t within, std::size_t done, std::size_t count) {
        Page& page = memory.pages_.try_emplace(number, Page{}).first->second;
        std::memcpy(page.data() + within, static_cast<const std::byte*>(buffer) + done, count);
      });
    } catch (const std::exception&) {
      return -1;  // no memory
    }
    memory.end_ = std::max(memory.end_, static_cast<haddr_t>(address + size));
    return 0;
  }

  static hid_t make() {
    H5FD_class_t driver = {};
#ifdef H5FD_CLASS_VERSION
    driver.version = H5FD_CLASS_VERSION;
    driver.value = static_cast<H5FD_class_value_t>(300);  // of those free for tests and own use
#endif
    driver.name = "dullcast_frame";
    driver.maxaddr = static_cast<haddr_t>(-1) / 2;
    driver.fc_degree = H5F_CLOSE_WEAK;
    driver.fapl_size = sizeof(Settings);
    driver.open = open;
    driver.close = close;
    driver.query = query;
    driver.get_eoa = get_eoa;
    driver.set_eoa = set_eoa;
    driver.get_eof = get_eof;
    driver.read = read;
    driver.write = write;
    driver.truncate = truncate;
    const H5FD_mem_t kinds[] = H5FD_FLMAP_DICHOTOMY;
    std::copy(std::begin(kinds), std::end(kinds), driver.fl_map);
    return H5FDregister(&driver);
  }
};

H5::H5File FrameMemory::create(const H5::FileCreatPropList& creation, const H5::FileAccPropList& access) {
  const hid_t driver = Driver::make();
  const Driver::Settings settings{this};
  const bool taken = driver >= 0 && H5Pset_driver(access.getId(), driver, &settings) >= 0;
  // The properties hold it from here on, and then the file.
  if (driver >= 0) H5FDunregister(driver);
  if (!taken) throw H5::FileIException("FrameMemory", "HDF5 refused the driver");
  // HDF5 looks on the disk for the name of a file: no file can have this one.
  return H5::H5File("/dev/null/frame", H5F_ACC_TRUNC, creation, access);
}

void FrameMemory::pieces(const std::function<void(std::size_t, const void*, std::size_t)>& take) const {
  for (const auto& [number, page] : pages_) {
    const haddr_t from = number * page_size;
    if (from >= end_) break;
    take(static_cast<std::size_t>(from), page.data(),
         static_cast<std::size_t>(std::min<haddr_t>(page_size, end_ - from)));
  }
}

}  // namespace dullcast::storage
