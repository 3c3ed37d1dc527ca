#pragma once

#include <span>

#include "engine/scenario/map_reader.hpp"
#include "engine/scenario/scenario.hpp"

/// The uncertain numbers of each record as tables: their key in YAML, dimension, valid range and place in the
/// record. Reading, writing, perturbing and checking the library all go by these tables.
namespace dullcast {

template <class Record>
struct NumberField {
  const char* key;
  const Dimension* wanted;
  Range range;
  Quantity Record::*member;
  bool optional = false;  // whether a scenario's own new record may leave it out
};

std::span<const NumberField<RockRecord>> number_fields(const RockRecord&);
std::span<const NumberField<GradeRecord>> number_fields(const GradeRecord&);
std::span<const NumberField<LotRecord>> number_fields(const LotRecord&);
std::span<const NumberField<BodyRecord>> number_fields(const BodyRecord&);
std::span<const NumberField<FluidRecord>> number_fields(const FluidRecord&);
std::span<const NumberField<ModelNumbers>> number_fields(const ModelNumbers&);

/// What kind of value the number that for_each_number calls `name` is, and within which range; nothing for no
/// such number.
struct NumberKind {
  const Dimension* wanted;
  Range range;
};
std::optional<NumberKind> kind_of_number(const std::string& name);
/// Its dimension alone; null for no such number.
const Dimension* dimension_of_number(const std::string& name);

/// The marks that say where a number comes from; "given" is a scenario's own.
inline constexpr const char* marks[] = {"pub", "hb", "cp", "mem", "fit", "asm", "given"};

/// Reads one uncertain number: "50 MPa" (low = central = high, marked given) or a map of low, central, high,
/// source and mark. In a library (`complete`) all five are required; elsewhere low and high default to
/// central, the mark to given. Checks the range and low <= central <= high. Nothing when there is an error,
/// which is reported.
std::optional<Quantity> read_quantity(const YamlValue& value, const std::string& path,
                                      const Dimension& wanted, const Range& range, bool complete,
                                      Reading& reading);

/// Reads every number of a record that the map gives, over what the record holds. With `complete`, a missing
/// one is an error.
template <class Record>
void read_numbers(MapReader& map, Record& record, bool complete) {
  for (const auto& field : number_fields(record)) {
    if (const YamlValue* value = map.find(field.key)) {
      if (const auto read = read_quantity(*value, map.path_of(field.key), *field.wanted, field.range,
                                          complete, map.reading())) {
        record.*field.member = *read;
      }
    } else if (complete) {
      map.error(field.key,
                "is missing; write {low: , central: , high: , source: , mark: } with values such as " +
                    std::string(field.wanted->examples));
    }
  }
}

}  // namespace dullcast
