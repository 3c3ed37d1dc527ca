#include "engine/sweep/base_cache.hpp"

#include <algorithm>

namespace dullcast::sweep {
namespace {

// A base takes some tens of kilobytes.
constexpr std::size_t most_bases = 200;
// A base costs some readings of its own: whatever is met less often than this is read as it comes.
constexpr int meetings_before_base = 4;

}  // namespace

BaseCache::BaseCache(Eigen::ArrayXd usual, std::vector<bool> patched)
    : usual_(std::move(usual)), patched_(std::move(patched)) {
  for (std::size_t k = 0; k < patched_.size(); ++k) {
    if (!patched_[k]) key_columns_.push_back(static_cast<Eigen::Index>(k));
  }
  key_.resize(key_columns_.size());
}

BaseCache::Entry& BaseCache::entry_for(const Eigen::ArrayXd& inputs) {
  for (std::size_t k = 0; k < key_.size(); ++k) key_[k] = inputs(key_columns_[k]);
  const auto found =
      std::find_if(entries_.begin(), entries_.end(), [&](const Entry& entry) { return entry.key == key_; });
  if (found != entries_.end()) {
    entries_.splice(entries_.begin(), entries_, found);
  } else {
    if (entries_.size() >= most_bases) entries_.pop_back();
    entries_.push_front({key_, 0, nullptr});
  }
  return entries_.front();
}

const PatchedBase* BaseCache::base_for(const CaseReader& reader, const Eigen::ArrayXd& inputs) {
  Entry& entry = entry_for(inputs);
  if (!entry.base && ++entry.met >= meetings_before_base) {
    Eigen::ArrayXd own = usual_;
    for (const Eigen::Index k : key_columns_) own(k) = inputs(k);
    entry.base = std::make_unique<PatchedBase>(reader, own, patched_);
  }
  return entry.base && entry.base->usable() ? entry.base.get() : nullptr;
}

}  // namespace dullcast::sweep
