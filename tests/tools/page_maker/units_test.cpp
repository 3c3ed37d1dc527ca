#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <map>
#include <regex>
#include <string>

#include "engine/base/display.hpp"
#include "tools/page_maker/page_files.hpp"

namespace dullcast::page_maker {
namespace {

/// Works out a product or quotient as units.js writes its factors: "60 / (foot * foot)".
class Factor {
 public:
  Factor(std::string text, const std::map<std::string, double>& names)
      : text_(std::move(text)), names_(names) {}
  double value() {
    double product = operand();
    for (skip(); at_ < text_.size() && (text_[at_] == '*' || text_[at_] == '/'); skip()) {
      const char sign = text_[at_++];
      const double next = operand();
      product = sign == '*' ? product * next : product / next;
    }
    return product;
  }

 private:
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  double operand() {
    skip();
    if (text_.at(at_) == '(') {
      ++at_;
      const double inside = value();
      ++at_;  // )
      return inside;
    }
    if (std::isalpha(static_cast<unsigned char>(text_[at_])) != 0) {
      std::string name;
      while (at_ < text_.size() && std::isalpha(static_cast<unsigned char>(text_[at_])) != 0)
        name += text_[at_++];
      return names_.at(name);
    }
    std::size_t used = 0;
    const double number = std::stod(text_.substr(at_), &used);
    at_ += used;
    return number;
  }
  std::string text_;
  const std::map<std::string, double>& names_;
  std::size_t at_ = 0;
};

TEST(Units, PagesShowValuesByTheFactorsOfReports) {
  const std::string script(page_file("parts/units.js"));
  std::map<std::string, double> names;
  const std::regex constant(R"((foot|inch|poundForce|gallon) = ([0-9.e-]+))");
  for (std::sregex_iterator it(script.begin(), script.end(), constant), end; it != end; ++it)
    names[(*it)[1]] = std::stod((*it)[2]);
  ASSERT_EQ(names.size(), 4u);
  namespace shown = base::shown;
  const std::map<std::string, base::Shown> kinds = {{"depth", shown::depth},
                                                    {"length", shown::length},
                                                    {"weight", shown::weight},
                                                    {"torque", shown::torque},
                                                    {"progress", shown::progress},
                                                    {"fluid_speed", shown::fluid_speed},
                                                    {"rotary_speed", shown::rotary_speed},
                                                    {"flow", shown::flow},
                                                    {"gas_flow", shown::gas_flow},
                                                    {"temperature", shown::temperature},
                                                    {"pressure", shown::pressure},
                                                    {"hours", shown::hours}};
  for (const auto& [name, kind] : kinds) {
    const std::regex entry(name + R"RX(: \["[^"]*", ([^,]+), ([^,]+), "[^"]*", ([^,]+), ([^\]]+)\])RX");
    std::smatch found;
    ASSERT_TRUE(std::regex_search(script, found, entry)) << name;
    const double expected[] = {kind.field_factor, kind.field_offset, kind.si_factor, kind.si_offset};
    for (std::size_t k = 0; k < 4; ++k)
      EXPECT_NEAR(Factor(found[k + 1], names).value(), expected[k], 1e-14 * std::abs(expected[k]))
          << name << ": " << found[k + 1];
  }
}

}  // namespace
}  // namespace dullcast::page_maker
