#include "engine/pages/json_parts.hpp"

#include <cmath>

namespace dullcast::pages {

std::string json_text(const nlohmann::json& view) {
  return view.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

nlohmann::json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  if (value == 0.0) return 0.0;
  constexpr int figures = 6;
  const int places = figures - 1 - static_cast<int>(std::floor(std::log10(std::abs(value))));
  // Past these no power of ten is exact, and nothing that is shown is that small or large.
  if (places < -15 || places > 300) return value;
  const double scale = std::pow(10.0, std::abs(places));
  return places >= 0 ? std::round(value * scale) / scale : std::round(value / scale) * scale;
}

const char* units_word(base::ShownUnits units) {
  if (units == base::ShownUnits::field) return "field";
  return units == base::ShownUnits::si ? "si" : "both";
}

nlohmann::json numbers(const Eigen::ArrayXd& values) {
  nlohmann::json all = nlohmann::json::array();
  for (const double value : values) all.push_back(number(value));
  return all;
}

}  // namespace dullcast::pages
