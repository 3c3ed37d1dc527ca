#include "engine/storage/tree_stream.hpp"

#include <algorithm>

namespace dullcast::storage::tree_stream {
namespace {

constexpr std::size_t at_once = std::size_t{1} << 20;  // bytes

class Receiver {
 public:
  Receiver(const std::function<void(void*, std::size_t)>& read, std::size_t most_bytes, double memory)
      : read_(read), left_(most_bytes), memory_left_(memory) {}

  void group(StoredGroup& group, std::size_t depth) {
    auto* attributes = &group.attributes;
    for (;;) {
      const auto mark = get<Mark>();
      if (mark == Mark::end_of_group || mark == Mark::end) {
        if ((mark == Mark::end) != (depth == 0)) lost();
        return;
      }
      if (++items_ > most_items) throw Refused("it holds more things than this program writes");
      std::string name = text();
      switch (mark) {
        case Mark::refusal:
          throw Refused(name);
        case Mark::attribute:
          values((*attributes)[std::move(name)]);
          break;
        case Mark::dataset:
          group.datasets.emplace_back(std::move(name), StoredDataset{});
          attributes = &group.datasets.back().second.attributes;
          values(group.datasets.back().second.values);
          break;
        case Mark::group:
          if (depth + 1 > deepest) lost();
          this->group(group.groups[std::move(name)], depth + 1);
          break;
        default:
          lost();
      }
    }
  }

 private:
  [[noreturn]] static void lost() { throw Refused("HDF5 broke over it"); }

  template <class Value>
  Value get() {
    Value value{};
    read_(&value, sizeof value);
    return value;
  }
  std::size_t size() { return static_cast<std::size_t>(get<std::uint64_t>()); }
  void take(std::size_t count, std::size_t each) {
    if (each != 0 && count > left_ / each) throw Refused("it claims more values than its bytes can hold");
    left_ -= count * each;
    memory_left_ -= static_cast<double>(count) * static_cast<double>(each);
    if (memory_left_ < 0.0) throw BeyondMemory();
  }
  std::string text() {
    const std::size_t length = size();
    take(length, 1);
    std::string words;
    fill(words, length);
    return words;
  }
  /// Memory is taken for what has come, not for what was announced.
  template <class Values>
  void fill(Values& values, std::size_t count) {
    constexpr std::size_t each = sizeof(typename Values::value_type);
    for (std::size_t done = 0; done < count;) {
      const std::size_t more = std::min(count - done, at_once / each), before = values.size();
      values.resize(before + more);
      read_(values.data() + before, more * each);
      done += more;
    }
  }
  /// `count` values in blocks, each of which `take_block` takes.
  template <class TakeBlock>
  void blocks(std::size_t count, const TakeBlock& take_block) {
    while (count > 0) {
      const std::size_t these = size();
      if (these == 0) throw Refused(text());
      if (these > count) lost();
      take_block(these);
      count -= these;
    }
  }
  void values(StoredValues& values) {
    values.kind = static_cast<StoredKind>(get<unsigned char>());
    values.kept = get<unsigned char>() != 0;
    values.width = size();
    const std::size_t axes = size();
    if (values.kind > StoredKind::other || axes > most_axes) lost();
    std::size_t count = 1;
    for (std::size_t axis = 0; axis < axes; ++axis) {
      const std::size_t length = size();
      if (length != 0 && count > SIZE_MAX / length) lost();
      count *= length;
      values.shape.push_back(length);
    }
    if (!values.kept) return;
    switch (values.kind) {
      case StoredKind::numbers:
        take(count, sizeof(double));
        return blocks(count, [&](std::size_t these) { fill(values.numbers, these); });
      case StoredKind::whole_numbers:
        take(count, sizeof(long));
        return blocks(count, [&](std::size_t these) { fill(values.whole_numbers, these); });
      case StoredKind::letters:
        take(count, values.width);
        return blocks(count, [&](std::size_t these) { fill(values.letters, these * values.width); });
      case StoredKind::texts:
        take(count, sizeof(std::string));
        return blocks(count, [&](std::size_t these) {
          for (std::size_t k = 0; k < these; ++k) values.texts.push_back(text());
        });
      case StoredKind::other:
        lost();
    }
  }

  const std::function<void(void*, std::size_t)>& read_;
  std::size_t left_, items_ = 0;
  double memory_left_;
};

}  // namespace

StoredGroup receive(const std::function<void(void*, std::size_t)>& read, std::size_t most_bytes,
                    double memory) {
  StoredGroup root;
  Receiver(read, most_bytes, memory).group(root, 0);
  return root;
}

}  // namespace dullcast::storage::tree_stream
