#include "tools/heat_reference/random_cases.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"

namespace dullcast::heat_reference {
namespace {

constexpr double mm = 1e-3, mm2 = 1e-6, degree = pi / 180.0;

/// Draws that are the same everywhere: the generator's bits are laid down by the standard, distributions are
/// not.
class Draw {
 public:
  Draw(std::uint64_t seed, std::uint64_t number) : bits_(seed * 1000003ULL + number) { bits_.discard(16); }
  double share() { return static_cast<double>(bits_() >> 11U) * 0x1p-53; }
  double even(double low, double high) { return low + (high - low) * share(); }
  double by_powers(double low, double high) { return low * std::pow(high / low, share()); }

 private:
  std::mt19937_64 bits_;
};

}  // namespace

CutterCase reference_case(const ComparedCase& of) {
  const thermal::CutterMaterials& m = of.materials;
  CutterCase c;
  c.cutter = of.cutter;
  c.diamond = {m.table_conductivity, m.table_density * of.diamond_capacity};
  c.carbide = {m.carbide_conductivity, m.carbide_density * m.carbide_heat_capacity};
  c.h_table = c.h_carbide = of.convection;
  c.pocket = thermal::pocket_conductance(of.cutter.shape, m);
  c.back_in_pocket = m.back_in_pocket;
  c.carbide_load = of.carbide_load;
  return c;
}

namespace {

/// All but the contact.
ComparedCase random_pocketed_cutter(Draw& draw) {
  ComparedCase c;
  geometry::CutterShape& s = c.cutter.shape;
  s.radius = 0.5 * draw.even(8.0 * mm, 19.0 * mm);
  s.table_thickness = draw.even(1.0 * mm, 4.0 * mm);
  s.length = std::max(draw.even(0.8, 1.6) * 2.0 * s.radius, s.table_thickness + 3.0 * mm);
  s.bevel_angle = draw.even(10.0, 45.0) * degree;
  s.bevel_width = draw.share() < 0.2 ? 0.0 : draw.even(0.1 * mm, 0.6 * mm);
  c.cutter.back_rake = draw.even(8.0, 30.0) * degree;
  c.cutter.exposed_share = draw.even(0.4, 0.6);
  c.convection = draw.by_powers(50.0, 50e3);
  thermal::CutterMaterials& m = c.materials;
  m.exposed_share = c.cutter.exposed_share;
  m.table_conductivity = draw.even(400.0, 700.0);
  m.table_density = 3510.0;
  m.carbide_conductivity = draw.even(70.0, 110.0);
  m.carbide_density = 14900.0;
  m.carbide_heat_capacity = draw.even(200.0, 240.0);
  m.body_conductivity = draw.share() < 0.5 ? draw.even(40.0, 45.0) : draw.even(25.0, 50.0);
  m.pocket_conductance = draw.by_powers(5e3, 20e3);
  m.back_in_pocket = true;
  c.diamond_capacity = thermal::diamond_heat_capacity(draw.even(300.0, 900.0));
  c.carbide_load = draw.by_powers(1.0 / 150.0, 0.05);
  return c;
}

}  // namespace

ComparedCase random_case(std::uint64_t seed, std::uint64_t number) {
  Draw draw(seed, number);
  ComparedCase c = random_pocketed_cutter(draw);
  // Cutters are replaced well before half the disc is gone.
  WornCutter most = c.cutter;
  most.worn = 0.8 * most.shape.radius;
  const double area = draw.by_powers(2.0 * mm2, std::min(60.0 * mm2, flat_of(most).area()));
  c.cutter.worn = worn_height_of_flat(c.cutter, area);
  c.flat = flat_of(c.cutter);
  return c;
}

ComparedCase random_land_case(std::uint64_t seed, std::uint64_t number) {
  Draw draw(seed, number);
  ComparedCase c = random_pocketed_cutter(draw);
  const geometry::CutterShape& s = c.cutter.shape;
  c.cutter.land_length =
      std::min(draw.by_powers(0.1 * mm, 0.8 * mm), 0.9 * (s.table_thickness - bevel_height(s)));
  c.cutter.land_width = draw.even(0.2, 0.9) * 2.0 * s.radius;
  c.flat = flat_of(c.cutter);
  return c;
}

ComparedCase random_chip_case(std::uint64_t seed, std::uint64_t number) {
  Draw draw(seed, number);
  ComparedCase c = random_pocketed_cutter(draw);
  const geometry::CutterShape& s = c.cutter.shape;
  const double least = std::max(0.3 * mm, 1.5 * s.bevel_width);
  c.cutter.chip_depth = draw.by_powers(least, std::max(0.4 * s.radius, 1.1 * least));
  c.flat = flat_of(c.cutter);
  return c;
}

}  // namespace dullcast::heat_reference
