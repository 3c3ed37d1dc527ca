#pragma once

#include <sstream>
#include <string>

#include "engine/scenario/number_fields.hpp"

/// Lines of resolved YAML: values in SI, numbers to the last bit.
namespace dullcast::input {

/// The shortest text that reads back as the same number.
std::string exact_text(double value);

/// The number with the dimension's SI unit, quoted; bare when it has none.
std::string with_unit(double value, const base::Dimension& dimension);

/// An amount of money: per is what it is per, "/s" or "".
std::string money_text(double value, const std::string& currency, const char* per = "");

/// {low: , central: , high: , mark: , source: }.
std::string quantity_text(const scenario::Quantity& quantity, const base::Dimension& dimension);

/// [a, b, c], "not measured" where a value is NaN.
std::string list_text(const Eigen::ArrayXd& values, const base::Dimension& dimension);

/// Collects lines. `indent` counts blanks.
class YamlLines {
 public:
  void line(int indent, std::string_view key, const std::string& value);
  void number(int indent, std::string_view key, double value, const base::Dimension& dimension);
  /// Text as it stands, with its own line ends.
  void raw(const std::string& text) { out_ << text; }
  template <class Record>
  void numbers(int indent, const Record& record) {
    for (const auto& field : scenario::number_fields(record)) {
      line(indent, field.key, quantity_text(record.*field.member, *field.wanted));
    }
  }
  std::string text() const { return out_.str(); }

 private:
  std::ostringstream out_;
};

/// Writes the bit: section. `continues` is the path of an earlier result as it is to stand there, or empty.
void write_bit(YamlLines& lines, const scenario::BitRecord& bit, const std::string& continues);

}  // namespace dullcast::input
