#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <tuple>

#include "engine/storage/shop_outlook.hpp"

/// Bit-for-bit comparison of one outlook with another. The structured bindings name every member, so that a
/// member added to one of these types does not compile here until it is stored and compared.
namespace dullcast::storage::same_shop {

inline auto members(const Spread& x) {
  const auto& [a, b, c, d] = x;
  return std::tie(a, b, c, d);
}
inline auto members(const WeekOutlook& x) {
  const auto& [a, b, c, d, e] = x;
  return std::tie(a, b, c, d, e);
}
inline auto members(const StationWeek& x) {
  const auto& [a, b, c] = x;
  return std::tie(a, b, c);
}
inline auto members(const StationOutlook& x) {
  const auto& [a, b, c, d, e, f, g] = x;
  return std::tie(a, b, c, d, e, f, g);
}
inline auto members(const CutterWeek& x) {
  const auto& [a, b] = x;
  return std::tie(a, b);
}
inline auto members(const CutterOutlook& x) {
  const auto& [a, b, c, d, e, f, g, h] = x;
  return std::tie(a, b, c, d, e, f, g, h);
}
inline auto members(const BitOutlook& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k);
}
inline auto members(const HoleOutlook& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l);
}
inline auto members(const ShopMoney& x) {
  const auto& [a, b, c, d, e, f, g, h] = x;
  return std::tie(a, b, c, d, e, f, g, h);
}
inline auto members(const ChangeOutlook& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l);
}
inline auto members(const EarlyPull& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j);
}
inline auto members(const ShopOutlook& x) {
  const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, y] = x;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, y);
}

/// NaN is equal to a NaN of the same bits.
template <class Value>
bool same(const Value& a, const Value& b);

template <class Value>
bool same_entries(const Value& a, const Value& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k)
    if (!same(a[k], b[k])) return false;
  return true;
}

template <class Value>
bool same(const Value& a, const Value& b) {
  if constexpr (std::is_same_v<Value, double>)
    return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
  else if constexpr (std::is_same_v<Value, std::string> || std::is_integral_v<Value>)
    return a == b;
  else if constexpr (requires { a.size(); })
    return same_entries(a, b);
  else
    return std::apply(
        [&](const auto&... left) {
          return std::apply([&](const auto&... right) { return (same(left, right) && ...); }, members(b));
        },
        members(a));
}

}  // namespace dullcast::storage::same_shop
