// The loads of cutters beside a plain evaluation of their definition: every crossing of outlines looked for
// among all pairs, every integral by quadrature.
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <cstdio>
#include <vector>

#include "models/common/constants.hpp"
#include "models/cutting/cutting_force.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;

/// Lengths along the edge, areas and forces of one cutter, as cutting_force.hpp states them.
struct PlainLoads {
  Eigen::ArrayXd area, area_moment, depth_moment, contact_force, contact_moment, contact_axial,
      contact_across, contact_area, engaged_width, flat_mobilised, diamond_area;
  explicit PlainLoads(Eigen::Index n) {
    for (auto* one : {&area, &area_moment, &depth_moment, &contact_force, &contact_moment, &contact_axial,
                      &contact_across, &contact_area, &engaged_width, &flat_mobilised, &diamond_area})
      one->setZero(n);
  }
};

double mobilisation(double cut, double full) {
  const double rest = std::sqrt(elastic_share);
  return std::min(1.0,
                  (std::sqrt(cut / full + elastic_share) - rest) / (std::sqrt(1.0 + elastic_share) - rest));
}

/// Depths that the cutters of a cell reach at a share of it, each as late as it passes, in that order.
std::vector<double> reached(const std::vector<geometry::OutlineSegment>& cutters, double share, double d) {
  std::vector<double> e;
  for (const auto& s : cutters)
    e.push_back(s.depth_inner + share * (s.depth_outer - s.depth_inner) - d * s.pass_phase);
  return e;
}

double cut_of(const std::vector<double>& e, std::size_t k, double d) {
  double before = *std::max_element(e.begin(), e.end()) - d;
  for (std::size_t m = 0; m < k; ++m) before = std::max(before, e[m]);
  return std::max(0.0, e[k] - before);
}

void add_stretch(const geometry::ProfileCell& cell, const std::vector<geometry::OutlineSegment>& cutters,
                 double from, double to, double d, const RockResistance& rock, const Eigen::ArrayXd& carbide,
                 PlainLoads& loads) {
  const double width = cell.outer - cell.inner;
  const auto at_from = reached(cutters, from, d), at_to = reached(cutters, to, d);
  for (std::size_t k = 0; k < cutters.size(); ++k) {
    const geometry::OutlineSegment& s = cutters[k];
    const double begin = cut_of(at_from, k, d), end = cut_of(at_to, k, d);
    if (!(begin + end > 1e-10 * d)) continue;
    const double full = rock.mobilisation_slope * s.diamond_length / s.cosine;
    // The mobilisation has a corner where it is full.
    std::vector<double> ends{0.0, 1.0};
    const double corner = (full - begin) / (end - begin);
    if (corner > 0.0 && corner < 1.0) ends.insert(ends.begin() + 1, corner);
    const int i = s.cutter;
    const double bears = s.diamond_length + carbide(i) * s.carbide_length;
    const double sine = (s.depth_inner > s.depth_outer ? 1.0 : -1.0) * std::sqrt(1.0 - s.cosine * s.cosine);
    const auto over = [&](const auto& integrand) {
      constexpr int parts = 12;
      double sum = 0.0;
      for (std::size_t e = 0; e + 1 < ends.size(); ++e)
        for (int p = 0; p < parts; ++p) {
          const double length = (ends[e + 1] - ends[e]) / parts, low = ends[e] + p * length;
          sum += boost::math::quadrature::gauss<double, 15>::integrate(integrand, low, low + length);
        }
      return sum * (to - from) * width;
    };
    const auto radius = [&](double x) { return cell.inner + (from + x * (to - from)) * width; };
    const auto cut = [&](double x) { return begin + x * (end - begin); };
    const auto m = [&](double x) { return mobilisation(cut(x), full); };
    const double mobilised = over(m);  // along the radius
    loads.area(i) += over(cut);
    loads.area_moment(i) += over([&](double x) { return radius(x) * cut(x); });
    loads.depth_moment(i) += s.cosine * over([&](double x) { return cut(x) * cut(x); });
    loads.contact_force(i) += rock.contact_strength * bears * mobilised / s.cosine;
    loads.contact_moment(i) +=
        rock.contact_strength * bears / s.cosine * over([&](double x) { return radius(x) * m(x); });
    loads.contact_axial(i) += rock.contact_strength * bears * mobilised;
    loads.contact_across(i) += rock.contact_strength * bears * mobilised / s.cosine * sine;
    loads.contact_area(i) += bears * mobilised / s.cosine;
    loads.engaged_width(i) += mobilised / s.cosine;
    loads.flat_mobilised(i) += s.flat_weight * mobilised / s.cosine;
    loads.diamond_area(i) += s.diamond_length * mobilised / s.cosine;
  }
}

PlainLoads plain_loads(const geometry::WornProfile& profile, const RockResistance& rock,
                       const Eigen::ArrayXd& carbide, double d) {
  PlainLoads loads(profile.bit().count());
  for (const geometry::ProfileCell& cell : profile.cells()) {
    std::vector<geometry::OutlineSegment> cutters;
    for (int k = 0; k < cell.count; ++k) cutters.push_back(profile.segment(cell, k));
    std::vector<double> shares{0.0, 1.0};
    const auto inner = reached(cutters, 0.0, d), outer = reached(cutters, 1.0, d);
    for (std::size_t k = 0; k < cutters.size(); ++k)
      for (std::size_t m = 0; m < k; ++m)
        for (const double level : {-d, 0.0, d}) {
          const double share = (inner[k] - inner[m] - level) / (inner[k] - inner[m] - (outer[k] - outer[m]));
          if (share > 0.0 && share < 1.0) shares.push_back(share);
        }
    std::sort(shares.begin(), shares.end());
    for (std::size_t k = 0; k + 1 < shares.size(); ++k)
      if (shares[k + 1] > shares[k])
        add_stretch(cell, cutters, shares[k], shares[k + 1], d, rock, carbide, loads);
  }
  return loads;
}

RockResistance made_resistance() {
  materials::Rock rock;
  rock.unconfined_strength = 80e6;
  rock.friction_angle = 0.6;
  rock.youngs_modulus = 20e9;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  return rock_resistance(rock, 0.0, 0.4, 0.8);
}

TEST(PlainLoads, LoadsAreThoseOfTheirDefinitionToRounding) {
  Draw draw(20261129);
  const RockResistance rock = made_resistance();
  double worst = 0.0;
  for (int b = 0; b < 12; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    geometry::WornProfile profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit));
    profile.update(samples::random_wear(bit, draw));
    const Eigen::ArrayXd carbide =
        Eigen::ArrayXd::NullaryExpr(bit.count(), [&] { return draw.between(0.0, 1.0); });
    for (const double d : {1e-6, 1e-4, 1e-3, 6e-3}) {
      const PlainLoads plain = plain_loads(profile, rock, carbide, d);
      CutterLoads loads;
      cutter_loads(profile, rock, carbide, d, loads);
      // Depths of a tenth of a metre hold 1e-17 m.
      const double rounding = 1e-12 + 1e-17 / d;
      const auto compare = [&](const char* name, const Eigen::ArrayXd& one, const Eigen::ArrayXd& other) {
        const double off = (one - other).abs().maxCoeff() / other.abs().maxCoeff();
        worst = std::max(worst, off * 1e-12 / rounding);
        EXPECT_LT(off, rounding) << name << " of bit " << b << " at " << d;
      };
      compare("area", loads.area, plain.area);
      compare("area_moment", loads.area_moment, plain.area_moment);
      compare("depth_moment", loads.depth_moment, plain.depth_moment);
      compare("contact_force", loads.contact_force, plain.contact_force);
      compare("contact_moment", loads.contact_moment, plain.contact_moment);
      compare("contact_axial", loads.contact_axial, plain.contact_axial);
      compare("contact_across", loads.contact_across, plain.contact_across);
      compare("contact_area", loads.contact_area, plain.contact_area);
      compare("engaged_width", loads.engaged_width, plain.engaged_width);
      compare("flat_mobilised", loads.flat_mobilised, plain.flat_mobilised);
      compare("diamond_area", loads.diamond_area, plain.diamond_area);
    }
  }
  std::printf("  loads agree within %.2g\n", worst);
}

}  // namespace
}  // namespace dullcast::cutting
