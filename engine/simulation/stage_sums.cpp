#include "engine/simulation/stage_sums.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/wide.hpp"

namespace dullcast::simulation::stage_sums {
namespace {

struct Columns {
  const double* stage[4];
  double weight[4];
};

template <int count>
[[gnu::always_inline]] inline void add_each(const Columns& of, double* sum, int entries) {
  DULLCAST_TURNS_APART
  for (int k = 0; k < entries; ++k) {
    double s = sum[k];
    for (int j = 0; j < count; ++j) s += of.weight[j] * of.stage[j][k];
    sum[k] = s;
  }
}

DULLCAST_WIDE void add_one(const Columns& of, double* sum, int entries) {
  add_each<1>(of, sum, entries);
}
DULLCAST_WIDE void add_two(const Columns& of, double* sum, int entries) {
  add_each<2>(of, sum, entries);
}
DULLCAST_WIDE void add_three(const Columns& of, double* sum, int entries) {
  add_each<3>(of, sum, entries);
}
DULLCAST_WIDE void add_four(const Columns& of, double* sum, int entries) {
  add_each<4>(of, sum, entries);
}

DULLCAST_WIDE double greatest(const double* error, const double* scale, int entries) {
  double most[wide_block] = {};
  const int whole = entries - entries % wide_block;
  for (int block = 0; block < whole; block += wide_block)
    for (int l = 0; l < wide_block; ++l) {
      const double share = std::abs(error[block + l]) / scale[block + l];
      most[l] = share > most[l] ? share : most[l];
    }
  for (int k = whole; k < entries; ++k) {
    const double share = std::abs(error[k]) / scale[k];
    most[0] = share > most[0] ? share : most[0];
  }
  return *std::max_element(most, most + wide_block);
}

}  // namespace

void add(const Stages& stages, const Weights& weights, std::size_t count, Eigen::VectorXd& sum) {
  Columns of{};
  for (std::size_t j = 0; j < count; ++j) {
    of.stage[j] = stages[j].data();
    of.weight[j] = weights[j];
  }
  const auto act = count == 1 ? add_one : count == 2 ? add_two : count == 3 ? add_three : add_four;
  act(of, sum.data(), static_cast<int>(sum.size()));
}

double greatest_share(const Eigen::VectorXd& error, const Eigen::VectorXd& scale) {
  return greatest(error.data(), scale.data(), static_cast<int>(error.size()));
}

}  // namespace dullcast::simulation::stage_sums
