#include "engine/learning/seen_among.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dullcast::learning {
namespace {

/// Chances that 0, 1, ... of some independent cutters are marked.
std::vector<double> chances_of_counts(const std::vector<double>& p, std::size_t left_out) {
  std::vector<double> chances{1.0};
  for (std::size_t i = 0; i < p.size(); ++i) {
    if (i == left_out) continue;
    chances.push_back(0.0);
    for (std::size_t k = chances.size() - 1; k > 0; --k)
      chances[k] = chances[k] * (1.0 - p[i]) + chances[k - 1] * p[i];
    chances[0] *= 1.0 - p[i];
  }
  return chances;
}

double log_chance(const Marks& marks, const Eigen::ArrayXd& chance, double misread, Eigen::ArrayXd* slope) {
  if (slope) slope->setZero(chance.size());
  if (!marks.tell()) return 0.0;
  std::vector<double> p;
  for (const Eigen::Index i : marks.looked_at) p.push_back(misread + (1.0 - 2.0 * misread) * chance(i));
  const double straightened = 1.0 - 2.0 * misread;
  if (!marks.marked.empty()) {
    double sum = 0.0;
    for (std::size_t i = 0; i < p.size(); ++i) {
      sum += std::log(marks.marked[i] ? p[i] : 1.0 - p[i]);
      if (slope)
        (*slope)(marks.looked_at[i]) = straightened * (marks.marked[i] ? 1.0 / p[i] : -1.0 / (1.0 - p[i]));
    }
    return sum;
  }
  const std::size_t none = p.size();
  const auto count = static_cast<std::size_t>(std::max(0, *marks.count));
  if (count > p.size()) return -std::numeric_limits<double>::infinity();
  const double whole = chances_of_counts(p, none)[count];
  if (slope) {
    for (std::size_t i = 0; i < p.size(); ++i) {
      const std::vector<double> others = chances_of_counts(p, i);
      const double one_less = count > 0 ? others[count - 1] : 0.0;
      const double as_many = count < others.size() ? others[count] : 0.0;
      (*slope)(marks.looked_at[i]) = straightened * (one_less - as_many) / whole;
    }
  }
  return std::log(whole);
}

}  // namespace

double log_chance_of_marks(const Marks& marks, const Eigen::ArrayXd& chance, double misread) {
  return log_chance(marks, chance, misread, nullptr);
}

double log_chance_of_marks(const Marks& marks, const Eigen::ArrayXd& chance, double misread,
                           Eigen::ArrayXd& slope) {
  return log_chance(marks, chance, misread, &slope);
}

}  // namespace dullcast::learning
