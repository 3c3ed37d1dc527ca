#pragma once

#include "tools/schema_maker/keys_of_kinds.hpp"

namespace dullcast::schema_maker {

/// The keys of a kind as they stand within one another. What stands under names that people give (a rock's, a
/// kind of cutter's) stands once, under `any_name`; what stands in a list once, under `any_place`.
struct KeyTree {
  std::vector<input::KeyAsked> asked;
  std::map<std::string, KeyTree> below;

  bool is_asked(input::AskedFor kind) const;
  /// The tree at a path such as "bit.cutters.*"; throws std::out_of_range where there is none.
  const KeyTree& at(const std::string& path) const;
};

inline constexpr const char* any_name = "NAME";
inline constexpr const char* any_place = "*";

KeyTree tree_of(const AskedKeys& keys);

}  // namespace dullcast::schema_maker
