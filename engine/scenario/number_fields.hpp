#pragma once

#include <optional>
#include <span>
#include <string>

#include "engine/base/dimension.hpp"
#include "engine/scenario/scenario.hpp"

/// The uncertain numbers of each record as tables: their key in YAML, dimension, valid range and place in the
/// record. Reading, writing, perturbing and checking the library all go by these tables.
namespace dullcast::scenario {

template <class Record>
struct NumberField {
  const char* key;
  const base::Dimension* wanted;
  base::Range range;
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
  const base::Dimension* wanted;
  base::Range range;
};
std::optional<NumberKind> kind_of_number(const std::string& name);
/// Its dimension alone; null for no such number.
const base::Dimension* dimension_of_number(const std::string& name);

/// The marks that say where a number comes from; "given" is a scenario's own.
inline constexpr const char* marks[] = {"pub", "hb", "cp", "mem", "fit", "asm", "given"};

}  // namespace dullcast::scenario
