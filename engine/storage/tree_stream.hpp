#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "engine/storage/stored_tree.hpp"

/// How a child process tells its parent what a file holds: one item after another, in this machine's own
/// numbers.
namespace dullcast::storage::tree_stream {

/// What begins an item. Attributes are of the group or dataset begun last.
enum class Mark : unsigned char { group, end_of_group, dataset, attribute, refusal, end };

/// What of a file is taken to be beyond anything that this program writes.
inline constexpr std::size_t most_items = 20'000, deepest = 8, most_axes = 4;
/// Bytes that one compressed byte can stand for: the most of deflate (zlib technical details, "Maximum
/// Compression Factor").
inline constexpr std::size_t most_from_a_byte = 1032;

/// The child's side. What it sends is gathered into larger pieces; end() or refuse() sends the last.
class Sender {
 public:
  explicit Sender(std::function<void(const void*, std::size_t)> send) : send_(std::move(send)) {}
  void mark(Mark mark) { put(mark); }
  void end() {
    put(Mark::end);
    flush();
  }
  void name(Mark mark, const std::string& name) {
    put(mark);
    text(name);
  }
  /// A dataset or an attribute. As many values as its shape says follow when it is `kept`, in blocks.
  void announce(Mark mark, const std::string& its_name, const StoredValues& values) {
    name(mark, its_name);
    put(values.kind);
    put(values.kept);
    put(static_cast<std::uint64_t>(values.width));
    put(static_cast<std::uint64_t>(values.shape.size()));
    for (const std::size_t length : values.shape) put(static_cast<std::uint64_t>(length));
    to_come_ = values.kept ? values.count() : 0;
  }
  /// The next `count` values, of which at least one, in `bytes` bytes.
  void block(std::size_t count, const void* values, std::size_t bytes) {
    begin_block(count);
    gather(values, bytes);
  }
  /// `count` texts follow.
  void begin_block(std::size_t count) {
    put(static_cast<std::uint64_t>(count));
    to_come_ -= count;
  }
  void text(std::string_view words) {
    put(static_cast<std::uint64_t>(words.size()));
    gather(words.data(), words.size());
  }
  /// Nothing follows but why.
  void refuse(const std::string& why) {
    if (to_come_ > 0)
      put(std::uint64_t{0});
    else
      put(Mark::refusal);
    text(why);
    flush();
  }

 private:
  template <class Value>
  void put(Value value) {
    gather(&value, sizeof value);
  }
  void gather(const void* bytes, std::size_t count) {
    if (gathered_.size() + count > most_gathered) flush();
    if (count > most_gathered)
      send_(bytes, count);
    else
      gathered_.append(static_cast<const char*>(bytes), count);
  }
  void flush() {
    send_(gathered_.data(), gathered_.size());
    gathered_.clear();
  }
  static constexpr std::size_t most_gathered = 65536;
  std::string gathered_;
  std::function<void(const void*, std::size_t)> send_;
  std::size_t to_come_ = 0;  // values announced and not sent yet
};

/// The child's own sentence on why it stopped.
class Refused : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The values are true as far as can be told, but more than there is memory for.
class BeyondMemory : public std::exception {};

/// The parent's side: `read` gives the next bytes. Nothing that was sent is trusted: what does not follow the
/// rules, or is more than `most_bytes` of names and values, throws Refused, and what is more than `memory`
/// bytes of them BeyondMemory, before memory is taken for it.
StoredGroup receive(const std::function<void(void*, std::size_t)>& read, std::size_t most_bytes,
                    double memory);

}  // namespace dullcast::storage::tree_stream
