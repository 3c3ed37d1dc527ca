#pragma once

#include <list>
#include <memory>
#include <vector>

#include "engine/sweep/patched_base.hpp"

namespace dullcast::sweep {

/// The bases of the cases met lately, one for each setting of the inputs that cannot be patched. Keeps a
/// bounded number, and changes nothing of what a case is, only what making it takes.
class BaseCache {
 public:
  /// `usual` are the inputs of a case that makes a scenario: bases are read with its values of what is
  /// patched, so that no case's own numbers are ever left standing in another's.
  BaseCache(Eigen::ArrayXd usual, std::vector<bool> patched);

  /// The base for the case with these inputs; null where it has none or not yet, and the case is to be read.
  const PatchedBase* base_for(const CaseReader& reader, const Eigen::ArrayXd& inputs);

 private:
  struct Entry {
    std::vector<double> key;  // the inputs that are not patched
    int met = 0;
    std::unique_ptr<PatchedBase> base;
  };
  Entry& entry_for(const Eigen::ArrayXd& inputs);

  Eigen::ArrayXd usual_;
  std::vector<bool> patched_;
  std::vector<Eigen::Index> key_columns_;
  std::vector<double> key_;   // of the case in hand
  std::list<Entry> entries_;  // the one met last first
};

}  // namespace dullcast::sweep
