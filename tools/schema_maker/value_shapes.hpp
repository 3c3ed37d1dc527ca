#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "engine/input/keys_asked.hpp"

/// JSON schemas (draft 7) of single values, and of those that readers take apart by themselves.
namespace dullcast::schema_maker {

using Json = nlohmann::ordered_json;

/// Of a number with its unit; a plain one may be a number or a text such as "50 %".
Json number_shape(const base::Dimension& wanted, const base::Range& range);
/// Of an uncertain number: such a value, or a map of low, central, high, mark and source. In a file of the
/// library
/// (`complete`) only the map, with all of them.
Json uncertain_shape(const base::Dimension& wanted, const base::Range& range, bool complete);
/// Of a few words: YAML takes some of them (1613, yes) for numbers or for true and false.
Json words_shape();
Json one_of_shape(const std::vector<std::string>& choices);
Json whole_number_shape(std::int64_t least, std::int64_t most);
Json list_shape(Json items);
/// A value that fits one of them.
Json any_of(std::vector<Json> shapes);

/// What a reader takes that asks a map for a value and looks at it itself: of the key at this path of a kind
/// of file ("shop:rigs.*.holidays"). Nothing for a key whose values readers ask for as what they are.
std::optional<Json> shape_by_hand(const std::string& place);
/// Every place that shape_by_hand knows.
std::vector<std::string> places_by_hand();

}  // namespace dullcast::schema_maker
