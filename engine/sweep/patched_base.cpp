#include "engine/sweep/patched_base.hpp"

#include <algorithm>
#include <exception>
#include <string_view>

#include "engine/input/scenario_writer.hpp"

namespace dullcast::sweep {
namespace {

/// A number of a move and of its place are of one kind: what the move writes is what the place reads.
bool same_unit(const base::Dimension& one, const base::Dimension& other) {
  return one.rule == other.rule && std::string_view(one.si) == other.si &&
         std::string_view(one.label) == other.label;
}

std::optional<input::NumberPlace> place_of_move(const Move& move, const scenario::Scenario& read,
                                                const input::NumbersRead& numbers) {
  if (!move.dimension) return std::nullopt;
  auto place = input::place_of(move.path, read, numbers);
  if (!place || !same_unit(*move.dimension, *place->wanted)) return std::nullopt;
  return place;
}

/// for_each_number calls a rock's number by the layers that share it, so a path that moves the same number of
/// a rock may move the name from layer to layer.
bool may_be_renamed(const DrawnNumber& number, const Move& move) {
  const auto colon = number.name.rfind(": ");
  if (!number.name.starts_with("rock ") || colon == std::string::npos) return false;
  const bool of_rock = move.path.starts_with("layers.") || move.path.starts_with("column.layers.") ||
                       move.path.starts_with("rocks.");
  return of_rock && move.path.ends_with("." + number.name.substr(colon + 2));
}

}  // namespace

std::vector<bool> patched_columns(const CaseReader& reader, const Eigen::ArrayXd& inputs) {
  input::NumbersRead numbers;
  const scenario::Scenario read = reader.read_paths(inputs, &numbers);
  std::vector<bool> patched(static_cast<std::size_t>(inputs.size()), true);
  for (const Move& move : reader.moves()) {
    if (!place_of_move(move, read, numbers)) patched[static_cast<std::size_t>(move.column)] = false;
  }
  return patched;
}

PatchedBase::PatchedBase(const CaseReader& reader, const Eigen::ArrayXd& inputs,
                         const std::vector<bool>& patched) {
  try {
    input::NumbersRead read;
    base_ = reader.read_paths(inputs, &read);
    usable_ = find_places(reader, patched, read) && agrees_beside(reader, inputs, patched);
  } catch (const std::exception&) {
    usable_ = false;  // whoever reads the case itself is told what is wrong
  }
}

bool PatchedBase::find_places(const CaseReader& reader, const std::vector<bool>& patched,
                              const input::NumbersRead& read) {
  for (const Move& move : reader.moves()) {
    for (const DrawnNumber& number : reader.numbers()) {
      if (may_be_renamed(number, move)) return false;
    }
    if (!patched[static_cast<std::size_t>(move.column)]) continue;
    auto place = place_of_move(move, base_, read);
    if (!place) return false;
    moves_.push_back({move, *std::move(place)});
  }
  std::vector<std::string> names;
  for (const DrawnNumber& number : reader.numbers()) names.push_back(number.name);
  auto places = scenario::places_of_numbers(base_, names);
  for (std::size_t k = 0; k < names.size(); ++k) {
    // Mark and source stand in the base already, so that a case needs to set values only.
    for (const scenario::QuantityPlace& place : places[k]) place(base_) = drawn_quantity(0.0);
    numbers_.push_back({reader.numbers()[k].column, std::move(places[k])});
  }
  return true;
}

bool PatchedBase::make(const Eigen::ArrayXd& inputs, scenario::Scenario& into) const {
  for (const PatchedMove& one : moves_) {
    if (!input::within(one.place.range, value_of(one.move, inputs))) return false;
  }
  into = base_;
  for (const PatchedMove& one : moves_) one.place.set(into, value_of(one.move, inputs));
  if (!input::holds_together(into)) return false;
  for (const PatchedNumber& number : numbers_) {
    const double drawn = inputs(number.column);
    for (const scenario::QuantityPlace& place : number.places) {
      scenario::Quantity& quantity = place(into);
      quantity.low = quantity.central = quantity.high = drawn;
    }
  }
  scenario::carry_edge_radius(into);
  return true;
}

bool PatchedBase::in_range(Eigen::Index column, const Eigen::ArrayXd& inputs) const {
  return std::all_of(moves_.begin(), moves_.end(), [&](const PatchedMove& one) {
    return one.move.column != column || input::within(one.place.range, value_of(one.move, inputs));
  });
}

bool PatchedBase::agrees_beside(const CaseReader& reader, const Eigen::ArrayXd& inputs,
                                const std::vector<bool>& patched) const {
  constexpr double step = 0x1p-7;
  const auto agrees = [&](bool zeros_too) -> std::optional<bool> {
    Eigen::ArrayXd beside = inputs;
    for (Eigen::Index k = 0; k < beside.size(); ++k) {
      const double own = inputs(k);
      if (!patched[static_cast<std::size_t>(k)] || (own == 0.0 && !zeros_too)) continue;
      // To whichever side its range leaves room.
      for (const double other : {own == 0.0 ? step : own * (1.0 - step), own * (1.0 + step)}) {
        beside(k) = other;
        if (in_range(k, beside)) break;
      }
    }
    scenario::Scenario made;
    if (!make(beside, made)) return std::nullopt;
    return input::resolved_text(made) == input::resolved_text(reader.read(beside));
  };
  // A number that is 0 may have to stay so.
  const std::optional<bool> all = agrees(true);
  return all ? *all : agrees(false).value_or(false);
}

}  // namespace dullcast::sweep
