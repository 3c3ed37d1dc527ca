#pragma once

#include <gtest/gtest.h>

#include <bit>
#include <cstdint>
#include <tuple>

#include "engine/storage/stored_run.hpp"

/// Bit-for-bit comparison of what went into a file with what came out. The structured bindings name every
/// member, so that a member added to one of these types does not compile here until it is stored and
/// compared.
namespace dullcast::storage::same_values {

inline auto members(const simulation::HistoryRow& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, y, z, aa, ab, ac, ad, ae,
               af, ag, ah, ai, aj, ak, al, am, an] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, y, z, aa, ab, ac, ad,
                  ae, af, ag, ah, ai, aj, ak, al, am, an);
}
inline auto members(const simulation::LayerPassage& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v);
}
inline auto members(const simulation::HoleSummary& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j);
}
inline auto members(const simulation::Event& x) {
  // What else an event knows is in its sentence, which is what files hold.
  return std::tie(x.kind, x.time, x.hole, x.depth, x.footage, x.cutter, x.text);
}
inline auto members(const simulation::BitCondition& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o);
}
inline auto members(const simulation::Milestone& x) {
  const auto& [a, b, c, d, e, f, g, h, i] = x;
  return std::tie(a, b, c, d, e, f, g, h, i);
}
inline auto members(const simulation::RuleUse& x) {
  const auto& [a, b] = x;
  return std::tie(a, b);
}
inline auto members(const simulation::HottestMoment& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l);
}
inline auto members(const simulation::History& x) {
  const auto& [a] = x;
  return std::tie(a);
}
inline auto members(const simulation::RunOutcome& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s);
}
inline auto members(const geometry::CutterShape& x) {
  const auto& [a, b, c, d, e, f, g, h] = x;
  return std::tie(a, b, c, d, e, f, g, h);
}
inline auto members(const scenario::BitBuild& x) {
  const auto& [a, b, c, d, e, f, g] = x;
  return std::tie(a, b, c, d, e, f, g);
}
inline auto members(const geometry::BitLayout& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l);
}
inline auto members(const scenario::ReworkRules& x) {
  const auto& [a, b, c, d, e, f, g, h, i] = x;
  return std::tie(a, b, c, d, e, f, g, h, i);
}

inline bool same(double a, double b) {
  return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}
inline bool same(int a, int b) {
  return a == b;
}
inline bool same(long a, long b) {
  return a == b;
}
inline bool same(simulation::EventKind a, simulation::EventKind b) {
  return a == b;
}
inline bool same(simulation::EndedBy a, simulation::EndedBy b) {
  return a == b;
}
inline bool same(const std::string& a, const std::string& b) {
  return a == b;
}
template <class T>
bool same(const T& a, const T& b) requires requires {
  members(a);
};
template <class T>
bool same(const std::optional<T>& a, const std::optional<T>& b) {
  return a.has_value() == b.has_value() && (!a || same(*a, *b));
}
template <class T>
bool same(const std::vector<T>& a, const std::vector<T>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    if (!same(a[k], b[k])) return false;
  }
  return true;
}
template <class Scalar>
bool same(const Eigen::Array<Scalar, Eigen::Dynamic, 1>& a,
          const Eigen::Array<Scalar, Eigen::Dynamic, 1>& b) {
  if (a.size() != b.size()) return false;
  for (Eigen::Index k = 0; k < a.size(); ++k) {
    if (!same(a[k], b[k])) return false;
  }
  return true;
}
template <class T>
bool same(const T& a, const T& b) requires requires {
  members(a);
}
{
  const auto left = members(a);
  const auto right = members(b);
  return [&]<std::size_t... k>(std::index_sequence<k...>) {
    return (same(std::get<k>(left), std::get<k>(right)) && ...);
  }
  (std::make_index_sequence<std::tuple_size_v<decltype(left)>>());
}

}  // namespace dullcast::storage::same_values
