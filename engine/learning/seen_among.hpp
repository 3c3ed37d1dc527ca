#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

namespace dullcast::learning {

/// Which of some cutters were found with a mark (chipped, lost, cracked by heat), or only how many.
struct Marks {
  std::vector<Eigen::Index> looked_at;  // cutters that tell
  std::vector<bool> marked;             // one for each of them; empty where only `count` is known
  std::optional<int> count;             // of marked ones
  bool tell() const { return !looked_at.empty() && (count || !marked.empty()); }
};

/// ln of the chance to find those marks, cutters being independent, each marked with its chance p (one entry
/// a cutter, all of the bit's), A count has
/// the chance of the Poisson binomial law, worked out by folding in one cutter after the other [hb]. Chances
/// are held `misread` off 0 and 1: an inspector may take one for another. 0 where nothing tells.
double log_chance_of_marks(const Marks& marks, const Eigen::ArrayXd& chance, double misread);

/// The same with the slope by each chance, into `slope` (as many entries as `chance`).
double log_chance_of_marks(const Marks& marks, const Eigen::ArrayXd& chance, double misread,
                           Eigen::ArrayXd& slope);

}  // namespace dullcast::learning
