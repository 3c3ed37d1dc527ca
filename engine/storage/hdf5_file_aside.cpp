#include "engine/storage/hdf5_file_aside.hpp"

#include <H5FDpublic.h>

#include <algorithm>
#include <cstring>
#include <exception>

#include "engine/base/file_error.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/hdf5_use.hpp"

namespace dullcast::storage {

/// What the driver and the Hdf5FileAside share; HDF5 may hold the file open for longer than that lives.
struct Hdf5FileAside::State {
  base::FileAside* file;     // null once there is none
  std::exception_ptr error;  // the first
  haddr_t end = 0;           // of what was written; of the whole file when it is closed
  bool closed = false;

  /// Does `work` on the file unless something failed before; tells whether it was done.
  template <class Work>
  bool attempt(const Work& work) {
    if (file == nullptr || error) return false;
    try {
      work(*file);
      return true;
    } catch (...) {
      error = std::current_exception();
      return false;
    }
  }
};

/// A virtual file driver (HDF5 reference manual, "Virtual File Layer"): HDF5 keeps a Handle for the open file
/// and calls these functions with it.
struct Hdf5FileAside::Driver {
  struct Handle {
    H5FD_t common;  // HDF5's own, which must come first
    std::shared_ptr<State> state;
    haddr_t allocated;
  };
  /// What the access properties carry to open().
  struct Settings {
    Hdf5FileAside* aside;
  };

  static Handle* handle(H5FD_t* file) { return reinterpret_cast<Handle*>(file); }
  static const Handle* handle(const H5FD_t* file) { return reinterpret_cast<const Handle*>(file); }

  static H5FD_t* open(const char*, unsigned, hid_t access, haddr_t) {
    const auto* settings = static_cast<const Settings*>(H5Pget_driver_info(access));
    if (settings == nullptr) return nullptr;
    try {
      return &(new Handle{{}, settings->aside->state_, 0})->common;
    } catch (const std::exception&) {
      return nullptr;
    }
  }
  static herr_t close(H5FD_t* file) {
    handle(file)->state->closed = true;
    delete handle(file);
    return 0;
  }
  /// As HDF5's own driver for files on a disk, so that files are laid out alike. Without its sieve, a buffer
  /// through which it would read what stands around values that it writes.
  static herr_t query(const H5FD_t*, unsigned long* flags) {
    if (flags != nullptr)
      *flags = H5FD_FEAT_AGGREGATE_METADATA | H5FD_FEAT_ACCUMULATE_METADATA | H5FD_FEAT_AGGREGATE_SMALLDATA;
    return 0;
  }
  static haddr_t get_eoa(const H5FD_t* file, H5FD_mem_t) { return handle(file)->allocated; }
  static herr_t set_eoa(H5FD_t* file, H5FD_mem_t, haddr_t address) {
    handle(file)->allocated = address;
    return 0;
  }
  static haddr_t get_eof(const H5FD_t* file, H5FD_mem_t) { return handle(file)->state->end; }
  static herr_t truncate(H5FD_t* file, hid_t, hbool_t) {
    handle(file)->state->end = handle(file)->allocated;
    return 0;
  }
  /// Bytes that are not there are 0.
  static herr_t read(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t address, std::size_t size, void* buffer) {
    std::size_t got = 0;
    handle(file)->state->attempt([&](base::FileAside& aside) {
      got = aside.read_at(static_cast<std::size_t>(address), buffer, size);
    });
    std::memset(static_cast<std::byte*>(buffer) + got, 0, size - got);
    return 0;
  }
  static herr_t write(H5FD_t* file, H5FD_mem_t, hid_t, haddr_t address, std::size_t size,
                      const void* buffer) {
    State& state = *handle(file)->state;
    state.attempt(
        [&](base::FileAside& aside) { aside.write_at(static_cast<std::size_t>(address), buffer, size); });
    state.end = std::max(state.end, static_cast<haddr_t>(address + size));
    return 0;
  }

  static hid_t make() {
    H5FD_class_t driver = {};
#ifdef H5FD_CLASS_VERSION
    driver.version = H5FD_CLASS_VERSION;
    driver.value = static_cast<H5FD_class_value_t>(300);  // of those free for tests and own use
#endif
    driver.name = "dullcast_file_aside";
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

namespace {

void succeeded(herr_t status, const char* what) {
  if (status < 0) throw H5::FileIException(what, "HDF5 refused the call");
}

/// What HDF5 wrote of its headers stays in its memory until the file closes, so that it never asks for what a
/// full disk did not take. Headers are small beside the values.
void keep_headers(const H5::FileAccPropList& access) {
  H5AC_cache_config_t cache = {};
  cache.version = H5AC__CURR_CACHE_CONFIG_VERSION;
  succeeded(H5Pget_mdc_config(access.getId(), &cache), "header cache");
  cache.evictions_enabled = 0;
  cache.incr_mode = H5C_incr__off;
  cache.flash_incr_mode = H5C_flash_incr__off;
  cache.decr_mode = H5C_decr__off;
  succeeded(H5Pset_mdc_config(access.getId(), &cache), "header cache");
}

}  // namespace

Hdf5FileAside::Hdf5FileAside(const std::string& path)
    : path_(path), file_(path), state_(std::make_shared<State>(State{&file_, nullptr})) {}

Hdf5FileAside::~Hdf5FileAside() {
  state_->file = nullptr;
}

H5::H5File Hdf5FileAside::create() {
  H5::FileCreatPropList creation;
  const unsigned order = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;
  succeeded(H5Pset_link_creation_order(creation.getId(), order), "link order");
  succeeded(H5Pset_attr_creation_order(creation.getId(), order), "attribute order");
  succeeded(H5Pset_obj_track_times(creation.getId(), 0), "object times");
  H5::FileAccPropList access;
  access.setLibverBounds(H5F_LIBVER_V18, H5F_LIBVER_V18);
  keep_headers(access);
  const hid_t driver = Driver::make();
  const Driver::Settings settings{this};
  const bool taken = driver >= 0 && H5Pset_driver(access.getId(), driver, &settings) >= 0;
  // The properties hold it from here on, and then the file.
  if (driver >= 0) H5FDunregister(driver);
  if (!taken) throw H5::FileIException("Hdf5FileAside", "HDF5 refused the driver");
  // HDF5 looks on the disk for the name of a file: no file can have this one.
  return H5::H5File("/dev/null/aside", H5F_ACC_TRUNC, creation, access);
}

void Hdf5FileAside::check() const {
  if (state_->error) std::rethrow_exception(state_->error);
}

void Hdf5FileAside::keep() {
  check();
  if (!state_->closed) throw base::FileError(path_, "nothing written: HDF5 did not close the file");
  const auto end = static_cast<std::size_t>(state_->end);
  // HDF5 may have given out bytes at the end that it did not need to write.
  if (file_.size() < end) file_.write_at(end - 1, "", 1);
  const std::vector<std::byte> checksum = checksum_of(
      end, [&](std::size_t at, void* bytes, std::size_t count) { return file_.read_at(at, bytes, count); });
  file_.write_at(end, checksum.data(), checksum.size());
  file_.keep();
}

void write_hdf5_file(const std::string& path, const char* what,
                     const std::function<void(const H5::H5File&)>& put) {
  Hdf5FileAside aside(path);
  try {
    const Hdf5Use use;
    put(aside.create());
  } catch (const H5::Exception& error) {
    aside.check();
    throw base::FileError(path, std::string("nothing written: HDF5 could not make the ") + what + " (" +
                                    error.getDetailMsg() + ")");
  }
  aside.keep();
}

}  // namespace dullcast::storage
