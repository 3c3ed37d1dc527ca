#include "engine/simulation/cutter_blocks.hpp"

#include <algorithm>

#include "models/common/wide.hpp"

namespace dullcast::simulation {
namespace {

constexpr std::size_t parts = CutterBlocks::parts, stores = CutterBlocks::stores;
using Rows4x4 = std::array<double*, parts * parts>;
using Rows3x4 = std::array<double*, parts * stores>;
using Rows4 = std::array<double*, parts>;

template <std::size_t entries>
std::array<double*, entries> pointers(const std::array<std::vector<double>, entries>& from) {
  std::array<double*, entries> to;
  std::transform(from.begin(), from.end(), to.begin(),
                 [](const std::vector<double>& one) { return const_cast<double*>(one.data()); });
  return to;
}

/// The slopes of a block of flows, over what they warm, into the entries from place `at` on.
DULLCAST_WIDE
void put_block(const thermal::BlockOfFlows& flows, std::size_t at, const Rows4& per_capacity,
               const double (&per_heat)[stores], const Rows4x4& own, const Rows3x4& from_shared,
               const Rows3x4& to_shared) {
  for (std::size_t r = 0; r < parts; ++r)
    for (std::size_t c = 0; c < parts; ++c) {
      double* to = own[r * parts + c] + at;
      const double* per = per_capacity[r] + at;
      DULLCAST_TURNS_APART
      for (int l = 0; l < wide_block; ++l) to[l] = per[l] * flows.slope[r][c][l];
    }
  for (std::size_t s = 0; s < stores; ++s)
    for (std::size_t k = 0; k < parts; ++k) {
      double *from = from_shared[k * stores + s] + at, *to = to_shared[s * parts + k] + at;
      const double* per = per_capacity[k] + at;
      DULLCAST_TURNS_APART
      for (int l = 0; l < wide_block; ++l) {
        from[l] = per[l] * flows.slope[k][parts + s][l];
        to[l] = per_heat[s] * flows.slope[parts + s][k][l];
      }
    }
}

/// The least pivot of each negative of a block, eliminated without pivoting.
DULLCAST_WIDE
void least_pivots(const Rows4x4& own, double* least, int places) {
  DULLCAST_TURNS_APART
  for (int i = 0; i < places; ++i) {
    double m[parts][parts];
    for (std::size_t r = 0; r < parts; ++r)
      for (std::size_t c = 0; c < parts; ++c) m[r][c] = -own[r * parts + c][i];
    double worst = m[0][0];
    for (std::size_t k = 0; k + 1 < parts; ++k) {
      const double per_pivot = 1.0 / m[k][k];
      for (std::size_t r = k + 1; r < parts; ++r) {
        const double share = m[r][k] * per_pivot;
        for (std::size_t c = k + 1; c < parts; ++c) m[r][c] -= share * m[k][c];
      }
      // Not above 0, or no number at all, stays so.
      worst = m[k + 1][k + 1] > 0.0 && worst > 0.0 ? worst : -1.0;
    }
    least[i] = worst;
  }
}

/// Inverses of (shift I - own + left out) by minors; what a part that falls leaves out goes to the fluid.
DULLCAST_WIDE
void invert(const Rows4x4& own, const Rows4& falling, const Rows4& fluid_per_part, const Rows3x4& to_shared,
            double shift, double most, const Rows4x4& inverse, const Rows3x4& held, int places) {
  DULLCAST_TURNS_APART
  for (int i = 0; i < places; ++i) {
    double a[parts][parts];
    for (std::size_t r = 0; r < parts; ++r)
      for (std::size_t c = 0; c < parts; ++c) a[r][c] = -own[r * parts + c][i];
    for (std::size_t k = 0; k < parts; ++k) {
      const double left_out = falling[k][i] > most ? falling[k][i] : 0.0;
      a[k][k] += shift + left_out;
      for (std::size_t s = 0; s < stores; ++s) {
        const double more = s == thermal::fluid_store ? left_out * fluid_per_part[k][i] : 0.0;
        held[s * parts + k][i] = to_shared[s * parts + k][i] + more;
      }
    }
    const double s0 = a[0][0] * a[1][1] - a[1][0] * a[0][1], s1 = a[0][0] * a[1][2] - a[1][0] * a[0][2],
                 s2 = a[0][0] * a[1][3] - a[1][0] * a[0][3], s3 = a[0][1] * a[1][2] - a[1][1] * a[0][2],
                 s4 = a[0][1] * a[1][3] - a[1][1] * a[0][3], s5 = a[0][2] * a[1][3] - a[1][2] * a[0][3];
    const double c0 = a[2][0] * a[3][1] - a[3][0] * a[2][1], c1 = a[2][0] * a[3][2] - a[3][0] * a[2][2],
                 c2 = a[2][0] * a[3][3] - a[3][0] * a[2][3], c3 = a[2][1] * a[3][2] - a[3][1] * a[2][2],
                 c4 = a[2][1] * a[3][3] - a[3][1] * a[2][3], c5 = a[2][2] * a[3][3] - a[3][2] * a[2][3];
    const double per = 1.0 / (s0 * c5 - s1 * c4 + s2 * c3 + s3 * c2 - s4 * c1 + s5 * c0);
    inverse[0][i] = (a[1][1] * c5 - a[1][2] * c4 + a[1][3] * c3) * per;
    inverse[1][i] = (-a[0][1] * c5 + a[0][2] * c4 - a[0][3] * c3) * per;
    inverse[2][i] = (a[3][1] * s5 - a[3][2] * s4 + a[3][3] * s3) * per;
    inverse[3][i] = (-a[2][1] * s5 + a[2][2] * s4 - a[2][3] * s3) * per;
    inverse[4][i] = (-a[1][0] * c5 + a[1][2] * c2 - a[1][3] * c1) * per;
    inverse[5][i] = (a[0][0] * c5 - a[0][2] * c2 + a[0][3] * c1) * per;
    inverse[6][i] = (-a[3][0] * s5 + a[3][2] * s2 - a[3][3] * s1) * per;
    inverse[7][i] = (a[2][0] * s5 - a[2][2] * s2 + a[2][3] * s1) * per;
    inverse[8][i] = (a[1][0] * c4 - a[1][1] * c2 + a[1][3] * c0) * per;
    inverse[9][i] = (-a[0][0] * c4 + a[0][1] * c2 - a[0][3] * c0) * per;
    inverse[10][i] = (a[3][0] * s4 - a[3][1] * s2 + a[3][3] * s0) * per;
    inverse[11][i] = (-a[2][0] * s4 + a[2][1] * s2 - a[2][3] * s0) * per;
    inverse[12][i] = (-a[1][0] * c3 + a[1][1] * c1 - a[1][2] * c0) * per;
    inverse[13][i] = (a[0][0] * c3 - a[0][1] * c1 + a[0][2] * c0) * per;
    inverse[14][i] = (-a[3][0] * s3 + a[3][1] * s1 - a[3][2] * s0) * per;
    inverse[15][i] = (a[2][0] * s3 - a[2][1] * s1 + a[2][2] * s0) * per;
  }
}

/// Four products of arrays, added up place by place.
[[gnu::always_inline]] inline void add_products(const double* a0, const double* b0, const double* a1,
                                                const double* b1, const double* a2, const double* b2,
                                                const double* a3, const double* b3, double* sum, int places) {
  DULLCAST_TURNS_APART
  for (int i = 0; i < places; ++i) sum[i] = (a0[i] * b0[i] + a1[i] * b1[i]) + (a2[i] * b2[i] + a3[i] * b3[i]);
}

/// Products with the inverses, and the sums over all cutters of held inverse from_shared; `work` is storage.
DULLCAST_WIDE
void multiply(const Rows4x4& inverse, const Rows3x4& held, const Rows3x4& from, const Rows3x4& carried,
              const Rows3x4& through, double* work, double (&sums)[stores * stores], int places) {
  for (std::size_t s = 0; s < stores; ++s)
    for (std::size_t k = 0; k < parts; ++k) {
      add_products(held[s * 4], inverse[k], held[s * 4 + 1], inverse[4 + k], held[s * 4 + 2], inverse[8 + k],
                   held[s * 4 + 3], inverse[12 + k], carried[s * 4 + k], places);
      add_products(inverse[k * 4], from[s], inverse[k * 4 + 1], from[3 + s], inverse[k * 4 + 2], from[6 + s],
                   inverse[k * 4 + 3], from[9 + s], through[k * 3 + s], places);
    }
  for (std::size_t r = 0; r < stores; ++r)
    for (std::size_t c = 0; c < stores; ++c) {
      add_products(carried[r * 4], from[c], carried[r * 4 + 1], from[3 + c], carried[r * 4 + 2], from[6 + c],
                   carried[r * 4 + 3], from[9 + c], work, places);
      double sum = 0.0;
      for (int block = 0; block < places; block += wide_block) sum += block_sum(work + block);
      sums[r * stores + c] = sum;
    }
}

/// What each cutter's solution is by its own heat and by the shared stores'.
DULLCAST_WIDE
void answer(const Rows4x4& inverse, const Rows3x4& through, const Rows4& heat, const double (&shared)[stores],
            const Rows4& solution, int cutters) {
  DULLCAST_TURNS_APART
  for (int i = 0; i < cutters; ++i)
    for (std::size_t r = 0; r < parts; ++r) {
      double sum = 0.0;
      for (std::size_t c = 0; c < parts; ++c) sum += inverse[r * parts + c][i] * heat[c][i];
      for (std::size_t s = 0; s < stores; ++s) sum += through[r * stores + s][i] * shared[s];
      solution[r][i] = sum;
    }
}

/// Sums over all cutters of what their heat carries to the shared stores.
DULLCAST_WIDE
void add_carried(const Rows3x4& carried, const Rows4& heat, double (&sums)[stores], int cutters) {
  for (std::size_t s = 0; s < stores; ++s) {
    double parts_of[wide_block] = {};
    const int whole = cutters - cutters % wide_block;
    for (int block = 0; block < whole; block += wide_block)
      for (int l = 0; l < wide_block; ++l) {
        double sum = 0.0;
        for (std::size_t k = 0; k < parts; ++k) sum += carried[s * parts + k][block + l] * heat[k][block + l];
        parts_of[l] += sum;
      }
    for (int i = whole; i < cutters; ++i) {
      double sum = 0.0;
      for (std::size_t k = 0; k < parts; ++k) sum += carried[s * parts + k][i] * heat[k][i];
      parts_of[i - whole] += sum;
    }
    sums[s] = block_sum(parts_of);
  }
}

}  // namespace

CutterBlocks::CutterBlocks(Eigen::Index cutters)
    : cutters_(static_cast<int>(cutters)), room_(static_cast<std::size_t>(filled_up(cutters_))) {
  for (auto* block : {&own_, &inverse_})
    for (Entry& entry : *block) entry.assign(room_, 0.0);
  for (auto* block : {&from_shared_, &through_, &to_shared_, &held_, &carried_})
    for (Entry& entry : *block) entry.assign(room_, 0.0);
  for (auto* block : {&falling_, &fluid_per_part_, &per_capacity_, &solution_})
    for (Entry& entry : *block) entry.assign(room_, 0.0);
  fill_up();
}

void CutterBlocks::set(const thermal::HeatBalance& balance, const std::vector<thermal::PartArray>& capacity,
                       const Eigen::Vector3d& per_heat) {
  for (std::size_t i = 0; i < capacity.size(); ++i) {
    const thermal::PartArray& falls = balance.falling(static_cast<Eigen::Index>(i));
    for (std::size_t r = 0; r < parts; ++r) {
      const double holds = capacity[i](static_cast<Eigen::Index>(r));
      per_capacity_[r][i] = 1.0 / holds;
      falling_[r][i] = falls(static_cast<Eigen::Index>(r)) / holds;
      fluid_per_part_[r][i] = per_heat(thermal::fluid_store) * holds;
    }
  }
  const double shared_per_heat[stores] = {per_heat(0), per_heat(1), per_heat(2)};
  for (std::size_t block = 0; block < balance.cutters().size(); ++block)
    put_block(balance.cutters()[block], block * wide_block, pointers(per_capacity_), shared_per_heat,
              pointers(own_), pointers(from_shared_), pointers(to_shared_));
  fill_up();
}

/// What fills the last block up decays by itself.
void CutterBlocks::fill_up() {
  for (std::size_t i = static_cast<std::size_t>(cutters_); i < room_; ++i)
    for (std::size_t k = 0; k < parts; ++k) own_[k * parts + k][i] = -1.0;
}

bool CutterBlocks::decay() const {
  double* least = solution_[0].data();
  least_pivots(pointers(own_), least, static_cast<int>(room_));
  return std::all_of(least, least + room_, [](double one) { return one > 0.0; });
}

Eigen::Matrix3d CutterBlocks::factorise(double shift, double most) {
  const int places = static_cast<int>(room_);
  invert(pointers(own_), pointers(falling_), pointers(fluid_per_part_), pointers(to_shared_), shift, most,
         pointers(inverse_), pointers(held_), places);
  double sums[stores * stores];
  multiply(pointers(inverse_), pointers(held_), pointers(from_shared_), pointers(carried_),
           pointers(through_), solution_[0].data(), sums, places);
  Eigen::Matrix3d let_through;
  for (std::size_t r = 0; r < stores; ++r)
    for (std::size_t c = 0; c < stores; ++c)
      let_through(static_cast<Eigen::Index>(r), static_cast<Eigen::Index>(c)) = sums[r * stores + c];
  return let_through;
}

Eigen::Vector3d CutterBlocks::carry(const double* columns) const {
  Rows4 heat;
  for (std::size_t k = 0; k < parts; ++k)
    heat[k] = const_cast<double*>(columns) + k * static_cast<std::size_t>(cutters_);
  double sums[stores];
  add_carried(pointers(carried_), heat, sums, cutters_);
  return {sums[0], sums[1], sums[2]};
}

void CutterBlocks::solve(const Eigen::Vector3d& shared, double* columns) const {
  Rows4 heat;
  for (std::size_t k = 0; k < parts; ++k) heat[k] = columns + k * static_cast<std::size_t>(cutters_);
  const double stores_heat[stores] = {shared(0), shared(1), shared(2)};
  answer(pointers(inverse_), pointers(through_), heat, stores_heat, pointers(solution_), cutters_);
  for (std::size_t k = 0; k < parts; ++k) std::copy_n(solution_[k].data(), cutters_, heat[k]);
}

}  // namespace dullcast::simulation
