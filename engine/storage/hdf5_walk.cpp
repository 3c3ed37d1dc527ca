// Later versions of HDF5 give links and objects other structures unless told that those of 1.10 are meant.
#define H5_USE_110_API
#include "engine/storage/hdf5_walk.hpp"

#include <hdf5.h>

#include <algorithm>
#include <cstring>
#include <exception>
#include <set>

#include "engine/base/plain_text.hpp"
#include "engine/storage/hdf5_id.hpp"

namespace dullcast::storage {
namespace {

using tree_stream::Mark;
using tree_stream::Refused;

constexpr std::size_t at_once = std::size_t{4} << 20;  // bytes of values read in one call
constexpr std::size_t largest_block = std::size_t{64}
                                      << 20;  // of a chunk, or of values along all axes but one

/// Its text names the thing in the file.
[[noreturn]] void refuse(const std::string& where, const std::string& why) {
  throw Refused(where + " " + why);
}

Hdf5Id opened(hid_t id, herr_t (*close)(hid_t), const std::string& where) {
  if (id < 0) refuse(where, "cannot be read");
  return {id, close};
}

class Walk {
 public:
  Walk(std::size_t file_size, const std::function<bool(const std::string&)>& wanted,
       tree_stream::Sender& sender)
      : stored_left_(file_size), texts_left_(file_size), wanted_(wanted), sender_(sender) {}

  void group(hid_t id, const std::string& where, std::size_t depth) {
    if (depth > tree_stream::deepest) refuse(where, "lies deeper than anything that this program writes");
    attributes(id, where);
    for (const std::string& name : names_in(id, where)) {
      const std::string path = where + "/" + name;
      const Hdf5Id object = opened(H5Oopen(id, name.c_str(), H5P_DEFAULT), H5Oclose, path);
      H5O_info_t about;
      if (H5Oget_info2(object.get(), &about, H5O_INFO_BASIC) < 0) refuse(path, "cannot be read");
      if (!seen_.insert(about.addr).second) refuse(path, "is another name of something else in the file");
      if (about.type == H5O_TYPE_GROUP) {
        sender_.name(Mark::group, name);
        group(object.get(), path, depth + 1);
        sender_.mark(Mark::end_of_group);
      } else if (about.type == H5O_TYPE_DATASET) {
        dataset(object.get(), name, path);
        attributes(object.get(), path);
      } else {
        refuse(path, "is neither a group nor a dataset");
      }
    }
  }

 private:
  struct Names {
    std::vector<std::string> names;
    std::string refused;  // the first that cannot be taken, and why
    bool crowded = false;
  };

  static herr_t take_link(hid_t, const char* name, const H5L_info_t* link, void* names) {
    auto& found = *static_cast<Names*>(names);
    if (found.names.size() >= tree_stream::most_items) {
      found.crowded = true;
      return 1;
    }
    if (link->type != H5L_TYPE_HARD) {
      found.refused = name;
      return 1;
    }
    found.names.emplace_back(name);
    return 0;
  }

  std::vector<std::string> names_in(hid_t id, const std::string& where) {
    const Hdf5Id made = opened(H5Gget_create_plist(id), H5Pclose, where);
    unsigned order = 0;
    const bool ordered = H5Pget_link_creation_order(made.get(), &order) >= 0 && order != 0;
    Names found;
    hsize_t next = 0;
    const herr_t ended =
        H5Literate(id, ordered ? H5_INDEX_CRT_ORDER : H5_INDEX_NAME, H5_ITER_INC, &next, take_link, &found);
    if (ended < 0) refuse(where.empty() ? "its root" : where, "cannot be read");
    if (found.crowded) refuse(where, "holds more things than this program writes");
    if (!found.refused.empty())
      refuse(where + "/" + base::plain(found.refused), "is a link that may lead elsewhere");
    for (const std::string& name : found.names) {
      if (!base::is_plain(name)) refuse(where + "/" + base::plain(name), "has a name that is no plain text");
    }
    return std::move(found.names);
  }

  static herr_t take_attribute(hid_t, const char* name, const H5A_info_t*, void* names) {
    auto& found = *static_cast<Names*>(names);
    found.names.emplace_back(name);
    return found.names.size() >= tree_stream::most_items ? 1 : 0;
  }

  void attributes(hid_t id, const std::string& where) {
    Names found;
    hsize_t next = 0;
    if (H5Aiterate2(id, H5_INDEX_NAME, H5_ITER_INC, &next, take_attribute, &found) < 0)
      refuse(where, "has attributes that cannot be read");
    for (const std::string& name : found.names) {
      const std::string path = where + "/" + base::plain(name);
      const Hdf5Id attribute = opened(H5Aopen(id, name.c_str(), H5P_DEFAULT), H5Aclose, path);
      const Hdf5Id type = opened(H5Aget_type(attribute.get()), H5Tclose, path);
      const Hdf5Id space = opened(H5Aget_space(attribute.get()), H5Sclose, path);
      StoredValues values = described(type.get(), space.get());
      const std::size_t bytes = bytes_of(values, type.get());
      take_stored(path, bytes, bytes);
      values.kept = values.kind != StoredKind::other;
      sender_.announce(Mark::attribute, name, values);
      if (!values.kept) continue;
      send(values, path, values.count(), type.get(),
           [&](hid_t in_memory, void* buffer) { return H5Aread(attribute.get(), in_memory, buffer); });
    }
  }

  void dataset(hid_t id, const std::string& name, const std::string& path) {
    const Hdf5Id made = opened(H5Dget_create_plist(id), H5Pclose, path);
    const H5D_layout_t layout = H5Pget_layout(made.get());
    if (layout == H5D_VIRTUAL || H5Pget_external_count(made.get()) > 0)
      refuse(path, "keeps its values outside of the file");
    if (layout < 0) refuse(path, "cannot be read");
    const int filters = H5Pget_nfilters(made.get());
    if (filters < 0) refuse(path, "cannot be read");
    for (int k = 0; k < filters; ++k) {
      unsigned flags = 0, config = 0;
      std::size_t no_values = 0;
      const H5Z_filter_t filter = H5Pget_filter2(made.get(), static_cast<unsigned>(k), &flags, &no_values,
                                                 nullptr, 0, nullptr, &config);
      if (filter != H5Z_FILTER_DEFLATE && filter != H5Z_FILTER_SHUFFLE && filter != H5Z_FILTER_FLETCHER32)
        refuse(path, "is packed by a filter that this program does not write");
    }
    const Hdf5Id type = opened(H5Dget_type(id), H5Tclose, path);
    const Hdf5Id space = opened(H5Dget_space(id), H5Sclose, path);
    StoredValues values = described(type.get(), space.get());
    const std::size_t bytes = bytes_of(values, type.get());
    const std::size_t stored = H5Dget_storage_size(id);
    take_stored(path, bytes, stored, filters > 0 ? tree_stream::most_from_a_byte : 1);
    std::size_t chunk_rows = 1;
    if (layout == H5D_CHUNKED) chunk_rows = rows_of_chunk(made.get(), values, H5Tget_size(type.get()), path);
    values.kept = values.kind != StoredKind::other && (!wanted_ || wanted_(path));
    sender_.announce(Mark::dataset, name, values);
    if (values.kept) send_rows(id, values, type.get(), space.get(), chunk_rows, path);
  }

  static std::size_t rows_of_chunk(hid_t made, const StoredValues& values, std::size_t each,
                                   const std::string& path) {
    hsize_t lengths[H5S_MAX_RANK] = {};
    const int axes = H5Pget_chunk(made, H5S_MAX_RANK, lengths);
    if (axes < 1) refuse(path, "cannot be read");
    if (values.kind == StoredKind::other) return 1;
    std::size_t bytes = each;
    for (int axis = 0; axis < axes; ++axis) {
      if (lengths[axis] == 0 || lengths[axis] > largest_block / bytes)
        refuse(path, "claims an impossible size");
      bytes *= lengths[axis];
    }
    return lengths[0];
  }

  /// Kind and lengths; a kind that is not read where the lengths are beyond what is.
  static StoredValues described(hid_t type, hid_t space) {
    StoredValues values;
    const H5S_class_t extent = H5Sget_simple_extent_type(space);
    const int axes = H5Sget_simple_extent_ndims(space);
    if ((extent != H5S_SCALAR && extent != H5S_SIMPLE) || axes < 0 ||
        axes > static_cast<int>(tree_stream::most_axes))
      return values;
    hsize_t lengths[H5S_MAX_RANK] = {};
    if (axes > 0 && H5Sget_simple_extent_dims(space, lengths, nullptr) != axes) return values;
    values.shape.assign(lengths, lengths + axes);
    switch (H5Tget_class(type)) {
      case H5T_FLOAT:
        values.kind = StoredKind::numbers;
        break;
      case H5T_INTEGER:
        values.kind = StoredKind::whole_numbers;
        break;
      case H5T_STRING:
        values.kind = H5Tis_variable_str(type) > 0 ? StoredKind::texts : StoredKind::letters;
        if (values.kind == StoredKind::letters) values.width = H5Tget_size(type);
        break;
      default:
        break;
    }
    return values;
  }

  /// Bytes of the values in the file, at most SIZE_MAX; a text of its own length has a place of 16 bytes.
  static std::size_t bytes_of(const StoredValues& values, hid_t type) {
    std::size_t bytes = std::max<std::size_t>(H5Tget_size(type), 1);
    for (const std::size_t length : values.shape) {
      if (length != 0 && bytes > SIZE_MAX / length) return SIZE_MAX;
      bytes *= length;
    }
    return bytes;
  }
  /// Values share no bytes of the file, so that all together take no more than it has.
  void take_stored(const std::string& path, std::size_t bytes, std::size_t stored,
                   std::size_t most_of_each = 1) {
    if (stored > stored_left_ || bytes / most_of_each > stored)
      refuse(path, "claims more values than the file can hold");
    stored_left_ -= stored;
  }

  /// Rows along the first axis, some megabytes at a time and whole chunks.
  void send_rows(hid_t id, const StoredValues& values, hid_t type, hid_t space, std::size_t chunk_rows,
                 const std::string& path) {
    const std::size_t each = H5Tget_size(type);
    const std::size_t count = values.count();
    if (count == 0) return;
    if (values.shape.empty()) {
      send(values, path, 1, type, [&](hid_t in_memory, void* buffer) {
        return H5Dread(id, in_memory, H5S_ALL, H5S_ALL, H5P_DEFAULT, buffer);
      });
      return;
    }
    const std::size_t rows = values.shape.front(), row = count / rows;
    if (row > largest_block / each) refuse(path, "claims an impossible size");
    const std::size_t block = chunk_rows * std::max<std::size_t>(1, at_once / (row * each) / chunk_rows);
    for (std::size_t first = 0; first < rows; first += block) {
      std::vector<hsize_t> start(values.shape.size(), 0), lengths(values.shape.begin(), values.shape.end());
      start.front() = first;
      lengths.front() = std::min(block, rows - first);
      const std::size_t these = lengths.front() * row;
      const hsize_t in_line = these;
      const Hdf5Id memory = opened(H5Screate_simple(1, &in_line, nullptr), H5Sclose, path);
      if (H5Sselect_hyperslab(space, H5S_SELECT_SET, start.data(), nullptr, lengths.data(), nullptr) < 0)
        refuse(path, "cannot be read");
      send(values, path, these, type, [&](hid_t in_memory, void* buffer) {
        return H5Dread(id, in_memory, memory.get(), space, H5P_DEFAULT, buffer);
      });
    }
  }

  /// Reads `count` values by `read` and sends them. Texts are read in the file's own type: HDF5 does not turn
  /// one set of letters into another.
  template <class Read>
  void send(const StoredValues& values, const std::string& path, std::size_t count, hid_t type,
            const Read& read) {
    if (count == 0) return;
    const auto plainly = [&](auto&& buffer, hid_t in_memory) {
      if (read(in_memory, buffer.data()) < 0) refuse(path, "cannot be read");
      sender_.block(count, buffer.data(), buffer.size() * sizeof buffer[0]);
    };
    switch (values.kind) {
      case StoredKind::numbers:
        return plainly(std::vector<double>(count), H5T_NATIVE_DOUBLE);
      case StoredKind::whole_numbers:
        return plainly(std::vector<long>(count), H5T_NATIVE_LONG);
      case StoredKind::letters:
        return plainly(std::vector<char>(count * values.width, '\0'), type);
      case StoredKind::texts:
        return send_texts(path, count, type, read);
      case StoredKind::other:
        return;
    }
  }

  template <class Read>
  void send_texts(const std::string& path, std::size_t count, hid_t type, const Read& read) {
    std::vector<char*> texts(count, nullptr);
    if (read(type, texts.data()) < 0) refuse(path, "cannot be read");
    for (const char* text : texts) {
      const std::size_t length = text == nullptr ? 0 : std::strlen(text);
      // No two texts share their bytes, so that all together are no longer than the file.
      if (length > texts_left_) refuse(path, "claims more text than the file can hold");
      texts_left_ -= length;
    }
    sender_.begin_block(count);
    for (char* text : texts) {
      sender_.text(text == nullptr ? "" : text);
      H5free_memory(text);
    }
  }

  std::size_t stored_left_, texts_left_;  // bytes
  const std::function<bool(const std::string&)>& wanted_;
  tree_stream::Sender& sender_;
  std::set<haddr_t> seen_;
};

}  // namespace

void send_hdf5_file(const std::string& path, std::size_t file_size,
                    const std::function<bool(const std::string& path)>& wanted, tree_stream::Sender& sender) {
  try {
    const Hdf5Id access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose);
    // Network disks without locks are no reason to call a file damaged; ours are written whole and renamed.
#if (H5_VERSION_GE(1, 10, 7) && !H5_VERSION_GE(1, 11, 0)) || H5_VERSION_GE(1, 12, 1)
    H5Pset_file_locking(access.get(), 0, 1);
#endif
    const Hdf5Id file(H5Fopen(path.c_str(), H5F_ACC_RDONLY, access.get()), H5Fclose);
    if (file.get() < 0) throw Refused("HDF5 cannot open it");
    const Hdf5Id root = opened(H5Gopen2(file.get(), "/", H5P_DEFAULT), H5Gclose, "its root");
    Walk(file_size, wanted, sender).group(root.get(), "", 0);
    sender.end();
  } catch (const Refused& refused) {
    sender.refuse(refused.what());
  } catch (const std::exception&) {
    sender.refuse("it takes more memory than its bytes can mean");
  }
}

}  // namespace dullcast::storage
