#include <algorithm>
#include <array>
#include <string_view>
#include <tuple>

#include "engine/input/unit_database.hpp"

// A page's database of units: the table that UDUNITS-2 filled, in place of engine/input/unit_database.cpp.
namespace dullcast::input {
namespace {

struct Line {
  std::string_view words, si;
  double factor, offset;
};

constexpr Line table[] = {
#include "tools/page_engine/wasm/unit_table.inc"
};

bool comes_before(const Line& line, const std::pair<std::string_view, std::string_view>& wanted) {
  return std::tie(line.words, line.si) < std::tie(wanted.first, wanted.second);
}

const Line* first_from(std::string_view words, std::string_view si) {
  return std::lower_bound(std::begin(table), std::end(table), std::make_pair(words, si), comes_before);
}

}  // namespace

struct UnitDatabase::Opened {};

UnitDatabase::UnitDatabase() = default;
UnitDatabase::~UnitDatabase() = default;
UnitDatabase::UnitDatabase(UnitDatabase&&) noexcept = default;
UnitDatabase& UnitDatabase::operator=(UnitDatabase&&) noexcept = default;

UnitLine UnitDatabase::line(const std::string& words, const std::string& si) const {
  const Line* found = first_from(words, si);
  if (found == std::end(table) || found->words != words || found->si != si) return {};
  return [found](double x) { return found->factor * x + found->offset; };
}

bool UnitDatabase::knows(const std::string& words) const {
  const Line* found = first_from(words, {});
  return found != std::end(table) && found->words == words;
}

}  // namespace dullcast::input
