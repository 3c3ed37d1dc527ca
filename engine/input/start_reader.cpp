#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range hazard_range{0.0, 1000.0, true, "from 0 to 1000"};
constexpr base::Range worn_body_range{0.0, 0.1, true, "from 0 to 100 mm"};
constexpr const char* starting_keys[] = {"starting_wear",       "starting_damage",     "starting_chip_hazard",
                                         "starting_lost",       "starting_table_gone", "starting_erosion",
                                         "starting_blade_wear", "starting_pad_wear"};

std::string millimetres(double length) {
  return base::plain_number(1000.0 * length) + " mm";
}

Eigen::ArrayXd per_cutter(MapReader& bit, const char* key, Eigen::Index n, const base::Dimension& wanted,
                          const base::Range& range) {
  Eigen::ArrayXd result = Eigen::ArrayXd::Zero(n);
  const YamlValue* value = bit.find(key);
  if (!value) return result;
  if (!value->is_list()) {
    if (const auto same = read_number(*value, bit.path_of(key), wanted, range, bit.reading())) {
      result.setConstant(*same);
    }
    return result;
  }
  if (n > 0 && value->items.size() != static_cast<std::size_t>(n)) {
    bit.error(key, "has " + std::to_string(value->items.size()) + " values for " + std::to_string(n) +
                       " cutters; write one value for all, or one a cutter from the axis outward");
    return result;
  }
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const std::string path = bit.path_of(key) + "." + std::to_string(i);
    result(i) = read_number(value->items[k], path, wanted, range, bit.reading()).value_or(0.0);
  }
  return result;
}

/// A list of cutter numbers, counted from 1: 1 at those cutters, 0 elsewhere.
Eigen::ArrayXi named_cutters(MapReader& bit, const char* key, Eigen::Index n) {
  Eigen::ArrayXi result = Eigen::ArrayXi::Zero(n);
  const auto& items = bit.list(key);
  for (std::size_t k = 0; n > 0 && k < items.size(); ++k) {
    const std::string& text = items[k].text;
    const int number = cutter_number(items[k]);
    const std::string path = bit.path_of(key) + "." + std::to_string(k);
    if (number < 1 || number > n) {
      bit.reading().problems.error(items[k].location, path,
                                   kind_name(items[k]) + " is no cutter of this bit; count them from 1 to " +
                                       std::to_string(n) + ", from the axis outward");
    } else if (result(number - 1) == 1) {
      bit.reading().problems.error(items[k].location, path,
                                   "names cutter " + text + " twice; keep one of them");
    } else {
      result(number - 1) = 1;
    }
  }
  return result;
}

void check_wear(MapReader& bit, const scenario::BitRecord& record) {
  for (Eigen::Index i = 0; i < record.layout.count(); ++i) {
    if (record.starting_wear(i) > record.layout.exposure(i)) {
      bit.error("starting_wear", "cutter " + std::to_string(i + 1) + " is worn " +
                                     millimetres(record.starting_wear(i)) + ", beyond its exposure of " +
                                     millimetres(record.layout.exposure(i)) + ": past repair");
      break;
    }
  }
  if (record.layout.count() > 0 && record.starting_lost.minCoeff() == 1) {
    bit.error("starting_lost", "leaves no cutter on the bit; name those that are missing only");
  }
  const auto beyond = [&](const char* key, double worn, double height, const char* what) {
    if (height > 0.0 && worn >= height) {
      bit.error(key, "is all of the " + std::string(what) + "'s " + millimetres(height) + ": past repair");
    }
  };
  beyond("starting_blade_wear", record.starting_blade_wear, record.build.blade_height, "blade");
  beyond("starting_erosion", record.starting_erosion, record.build.blade_thickness, "blade");
  beyond("starting_pad_wear", record.starting_pad_wear, record.layout.bit_radius, "bit");
}

}  // namespace

int cutter_number(const YamlValue& value) {
  const std::string& text = value.text;
  const bool whole = value.is_scalar() && !text.empty() && text.size() < 5 &&
                     text.find_first_not_of("0123456789") == std::string::npos;
  return whole ? std::stoi(text) : 0;
}

void read_start(MapReader& bit, scenario::BitRecord& record, const std::string& folder) {
  const auto n = record.layout.count();
  record.starting_wear =
      per_cutter(bit, "starting_wear", n, base::dimension::length, base::range::not_negative);
  record.starting_damage = per_cutter(bit, "starting_damage", n, base::dimension::number, base::range::share);
  record.starting_chip_hazard =
      per_cutter(bit, "starting_chip_hazard", n, base::dimension::number, hazard_range);
  record.starting_lost = named_cutters(bit, "starting_lost", n);
  record.starting_table_gone = named_cutters(bit, "starting_table_gone", n);
  record.starting_erosion = bit.number_or("starting_erosion", base::dimension::length, worn_body_range, 0.0);
  record.starting_blade_wear =
      bit.number_or("starting_blade_wear", base::dimension::length, worn_body_range, 0.0);
  record.starting_pad_wear =
      bit.number_or("starting_pad_wear", base::dimension::length, worn_body_range, 0.0);
  check_wear(bit, record);
  if (const auto path = bit.word("continues")) {
    record.continues = absolute_path(*path, folder);
    for (const char* key : starting_keys) {
      if (bit.has(key)) {
        bit.error(key, "is given beside continues:, which brings the wear along; keep one of them");
      }
    }
  }
}

}  // namespace dullcast::input
