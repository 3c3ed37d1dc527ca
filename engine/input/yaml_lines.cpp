#include "engine/input/yaml_lines.hpp"

#include <cmath>

#include "engine/base/number_text.hpp"
#include "engine/input/located_yaml.hpp"

namespace dullcast::input {

std::string exact_text(double value) {
  return base::exact_number(value);
}

std::string with_unit(double value, const base::Dimension& dimension) {
  const std::string unit = dimension.label;
  return unit.empty() ? exact_text(value) : "\"" + exact_text(value) + " " + unit + "\"";
}

std::string money_text(double value, const std::string& currency, const char* per) {
  return yaml_quoted(exact_text(value) + " " + currency + per);
}

std::string quantity_text(const scenario::Quantity& quantity, const base::Dimension& dimension) {
  return "{low: " + with_unit(quantity.low, dimension) +
         ", central: " + with_unit(quantity.central, dimension) +
         ", high: " + with_unit(quantity.high, dimension) + ", mark: " + quantity.mark +
         ", source: " + yaml_quoted(quantity.source) + "}";
}

std::string list_text(const Eigen::ArrayXd& values, const base::Dimension& dimension) {
  std::string result = "[";
  for (Eigen::Index i = 0; i < values.size(); ++i) {
    result +=
        (i > 0 ? ", " : "") + (std::isnan(values(i)) ? "not measured" : with_unit(values(i), dimension));
  }
  return result + "]";
}

void YamlLines::line(int indent, std::string_view key, const std::string& value) {
  out_ << std::string(static_cast<std::size_t>(indent), ' ') << key << ":" << (value.empty() ? "" : " ")
       << value << "\n";
}

void YamlLines::number(int indent, std::string_view key, double value, const base::Dimension& dimension) {
  line(indent, key, with_unit(value, dimension));
}

}  // namespace dullcast::input
