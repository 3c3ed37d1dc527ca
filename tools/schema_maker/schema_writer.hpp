#pragma once

#include <map>
#include <string>
#include <vector>

#include "tools/schema_maker/key_reference.hpp"
#include "tools/schema_maker/key_tree.hpp"
#include "tools/schema_maker/value_shapes.hpp"

namespace dullcast::schema_maker {

/// The names that the library has, by the keys under which one is named.
using Names = std::map<std::string, std::vector<std::string>>;

/// Writes the schema of one file. Shapes of numbers, which are many and few kinds, stand once, among its
/// definitions.
class SchemaWriter {
 public:
  /// `kind` is that of shape_by_hand; in a file of the library (`complete`) an uncertain number has all its
  /// parts. What it refers to must outlive it.
  SchemaWriter(std::string kind, const KeyReference& reference, const Names& names, bool complete = false)
      : kind_(std::move(kind)), reference_(reference), names_(names), complete_(complete) {}

  /// The schema of what stands at a path.
  Json shape(const KeyTree& tree, const std::string& path);
  /// The same of a map, whatever else may stand there.
  Json map_shape(const KeyTree& tree, const std::string& path);
  /// The whole of a file: its head, `schema`, and the definitions that shapes made until now refer to.
  Json finish(const Json& schema, const std::string& title);

 private:
  void add(std::vector<Json>& shapes, const input::KeyAsked& one);
  Json defined(const input::KeyAsked& one, const std::string& before, Json shape);
  const std::vector<std::string>* names_for(const std::string& place) const;
  std::string words_on(const std::string& path, const KeyTree& tree) const;

  std::string kind_;
  const KeyReference& reference_;
  const Names& names_;
  bool complete_;
  Json definitions_ = Json::object();
};

}  // namespace dullcast::schema_maker
