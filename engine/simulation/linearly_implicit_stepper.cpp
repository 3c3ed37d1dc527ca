#include "engine/simulation/linearly_implicit_stepper.hpp"

#include <Eigen/LU>

namespace dullcast::simulation {

Ros34Pw2 ros34pw2() {
  Ros34Pw2 k;
  k.gamma = 4.3586652150845900e-01;
  k.alpha[1][0] = 8.7173304301691801e-01;
  k.alpha[2][0] = 8.4457060015369423e-01;
  k.alpha[2][1] = -1.1299064236484185e-01;
  k.alpha[3][2] = 1.0;
  k.gamma_table[1][0] = -8.7173304301691801e-01;
  k.gamma_table[2][0] = -9.0338057013044082e-01;
  k.gamma_table[2][1] = 5.4180672388095326e-02;
  k.gamma_table[3][0] = 2.4212380706095346e-01;
  k.gamma_table[3][1] = -1.2232505839045147e+00;
  k.gamma_table[3][2] = 5.4526025533510214e-01;
  for (std::size_t i = 0; i < 4; ++i) k.gamma_table[i][i] = k.gamma;
  k.b = {2.4212380706095346e-01, -1.2232505839045147e+00, 1.5452602553351020e+00, 4.3586652150845900e-01};
  k.b_hat = {3.7810903145819369e-01, -9.6042292212423178e-02, 5.0000000000000000e-01, 2.1793326075422950e-01};

  Eigen::Matrix4d gamma, alpha;
  Eigen::RowVector4d b, b_hat;
  for (int i = 0; i < 4; ++i) {
    const auto row = static_cast<std::size_t>(i);
    b(i) = k.b[row];
    b_hat(i) = k.b_hat[row];
    for (int j = 0; j < 4; ++j) {
      gamma(i, j) = k.gamma_table[row][static_cast<std::size_t>(j)];
      alpha(i, j) = k.alpha[row][static_cast<std::size_t>(j)];
    }
  }
  const Eigen::Matrix4d inverse = gamma.inverse();
  const Eigen::Matrix4d a = alpha * inverse;
  const Eigen::RowVector4d m = b * inverse, m_hat = b_hat * inverse;
  for (int i = 0; i < 4; ++i) {
    const auto row = static_cast<std::size_t>(i);
    k.m[row] = m(i);
    k.error[row] = m(i) - m_hat(i);
    for (int j = 0; j < i; ++j) {
      k.a[row][static_cast<std::size_t>(j)] = a(i, j);
      k.c[row][static_cast<std::size_t>(j)] = -inverse(i, j);
    }
  }
  return k;
}

}  // namespace dullcast::simulation
