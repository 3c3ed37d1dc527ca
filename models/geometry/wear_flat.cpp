#include "models/geometry/wear_flat.hpp"

#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::geometry {
namespace {

// Everything is written in the half-opening angle phi of the segment, u = a (1 - cos phi), in which the area
// and its integral are entire functions: no root singularity at u = 0 is left for a series or a quadrature to
// meet.

/// Coefficients of x - sin x = x^3 sum_j c_j x^(2 j), c_j = (-1)^j/(2 j + 3)!.
constexpr std::size_t sine_terms = 12;
constexpr std::array<double, sine_terms> sine_coefficients() {
  std::array<double, sine_terms> c{};
  double factorial = 6.0, sign = 1.0, n = 3.0;
  for (double& value : c) {
    value = sign / factorial;
    factorial *= (n + 1.0) * (n + 2.0);
    n += 2.0;
    sign = -sign;
  }
  return c;
}

template <std::size_t size>
double polynomial(const std::array<double, size>& c, double x) {
  double sum = 0.0;
  for (std::size_t k = size; k-- > 0;) sum = sum * x + c[k];
  return sum;
}

/// x - sin x without cancellation, x >= 0.
double angle_less_sine(double x) {
  if (x > 1.5) return x - std::sin(x);
  static constexpr auto c = sine_coefficients();  // the first term left out is under 1e-18 at x = 1.5
  const double square = x * x;
  return square * x * polynomial(c, square);
}

/// S/a^2 = phi - sin phi cos phi.
double segment_of_angle(double phi) {
  return 0.5 * angle_less_sine(2.0 * phi);
}

/// Coefficients of I/a^3 = (3/4) sin phi - phi cos phi + (1/12) sin 3 phi = phi^5 sum_j c_j phi^(2 j), with
/// c_(k-2) = (-1)^k (3/4 - (2k + 1) + 9^k/4)/(2k + 1)!.
constexpr std::size_t integral_terms = 14;
constexpr std::array<double, integral_terms> integral_coefficients() {
  std::array<double, integral_terms> c{};
  double factorial = 120.0, nines = 81.0, sign = 1.0, k = 2.0;
  for (double& value : c) {
    value = sign * (0.75 - (2.0 * k + 1.0) + nines / 4.0) / factorial;
    factorial *= (2.0 * k + 2.0) * (2.0 * k + 3.0);
    nines *= 9.0;
    sign = -sign;
    k += 1.0;
  }
  return c;
}

/// I/a^3 = sin phi - phi cos phi - sin^3 phi/3.
double segment_integral_of_angle(double phi) {
  if (phi > 1.0) {
    const double sine = std::sin(phi);
    return sine - phi * std::cos(phi) - sine * sine * sine / 3.0;
  }
  static constexpr auto c = integral_coefficients();
  const double square = phi * phi;
  return square * square * phi * polynomial(c, square);
}

/// phi from u/(2 a) in [0, 1]; (sin, cos) of phi/2 are (sqrt(share), sqrt(1 - share)), so it keeps all digits
/// at both ends.
double opening_angle(double share) {
  return 2.0 * std::atan2(std::sqrt(share), std::sqrt(1.0 - share));
}

/// The part of a cut between axial distances whose segment heights are `high` and `low`, over a slope:
/// area = [S(high) - S(low)]/sin theta, volume = [I(high) - I(low)]/tan theta.
struct Slice {
  double area = 0.0, volume = 0.0;
};

/// `drop` = high - low, given apart so that a small one keeps its digits.
Slice slice(double radius, double high, double low, double drop, double sine, double tangent) {
  const double high_share = high / (2.0 * radius), low_share = low / (2.0 * radius);
  const double sin_high = std::sqrt(high_share), cos_high = std::sqrt(1.0 - high_share);
  const double sin_low = std::sqrt(low_share), cos_low = std::sqrt(1.0 - low_share);
  // Half sum and half difference of the two angles phi: sin(half difference) follows from
  // drop = 2 a sin(half sum) sin(half difference), never from subtracting angles.
  const double sin_half_sum = sin_high * cos_low + cos_high * sin_low;
  const double sin_half_difference = drop / (2.0 * radius * sin_half_sum);
  const double half_difference = std::atan2(sin_half_difference, cos_high * cos_low + sin_high * sin_low);
  const double difference = 2.0 * half_difference;

  Slice part;
  // S(high) - S(low) = a^2 [D - sin D cos(sum)] = a^2 [(D - sin D) + 2 sin D sin^2(sum/2)]: no term is
  // negative.
  part.area = radius * radius *
              (angle_less_sine(difference) + 2.0 * std::sin(difference) * sin_half_sum * sin_half_sum) / sine;

  const double high_angle = opening_angle(high_share), low_angle = opening_angle(low_share);
  const double whole = segment_integral_of_angle(high_angle), rest = segment_integral_of_angle(low_angle);
  double normalised = whole - rest;
  if (rest > 0.5 * whole) {
    // The closed form cancels: integrate S dz = S sin(phi) dphi between the angles. The integrand is entire
    // with no frequency above 3 and the interval under 1.3 rad, where ten points are exact to rounding.
    const auto integrand = [](double phi) { return segment_of_angle(phi) * std::sin(phi); };
    const double middle = low_angle + half_difference;
    normalised =
        half_difference * boost::math::quadrature::gauss<double, 10>::integrate(
                              [&](double x) { return integrand(middle + half_difference * x); }, -1.0, 1.0);
  }
  part.volume = radius * radius * radius * normalised / tangent;
  return part;
}

}  // namespace

double segment_area(double radius, double u) {
  require_domain(radius > 0.0, "segment_area", "the radius must be above 0 m", radius);
  require_domain(u <= 2.0 * radius, "segment_area", "the height must be at most the diameter", u);
  if (u <= 0.0) return 0.0;
  return radius * radius * segment_of_angle(opening_angle(u / (2.0 * radius)));
}

double segment_area_integral(double radius, double u) {
  require_domain(radius > 0.0, "segment_area_integral", "the radius must be above 0 m", radius);
  require_domain(u <= 2.0 * radius, "segment_area_integral", "the height must be at most the diameter", u);
  if (u <= 0.0) return 0.0;
  return radius * radius * radius * segment_integral_of_angle(opening_angle(u / (2.0 * radius)));
}

WearFlat wear_flat(double radius, double length, double table_thickness, double back_rake, double u) {
  require_domain(radius > 0.0, "wear_flat", "the radius must be above 0 m", radius);
  require_domain(table_thickness >= 0.0, "wear_flat", "the table thickness must be 0 m or more",
                 table_thickness);
  require_domain(length >= table_thickness, "wear_flat", "the length must be at least the table's thickness",
                 length);
  require_domain(back_rake >= 0.0 && back_rake < pi / 2.0, "wear_flat",
                 "the back rake must be 0 or more and under pi/2 rad", back_rake);
  require_domain(u >= 0.0 && u <= 2.0 * radius, "wear_flat",
                 "the worn height must be between 0 and the diameter", u);
  WearFlat flat;
  if (u == 0.0) return flat;
  const double tangent = std::tan(back_rake);
  const double table_drop = table_thickness * tangent, length_drop = length * tangent;
  // A rake whose drop over the cutter is lost beside u: the cut is parallel to the axis.
  if (length_drop < 1e-18 * u || tangent < 1e-290) {
    const double chord = 2.0 * std::sqrt(u * (2.0 * radius - u));
    const double segment = segment_area(radius, u);
    flat.diamond_area = chord * table_thickness;
    flat.diamond_volume = segment * table_thickness;
    flat.carbide_area = chord * (length - table_thickness);
    flat.carbide_volume = segment * (length - table_thickness);
    return flat;
  }
  const double sine = std::sin(back_rake);
  if (table_drop > 0.0) {
    const bool ends_in_table = table_drop >= u;
    const double low = ends_in_table ? 0.0 : u - table_drop;
    const Slice diamond = slice(radius, u, low, ends_in_table ? u : table_drop, sine, tangent);
    flat.diamond_area = diamond.area;
    flat.diamond_volume = diamond.volume;
  }
  const double high = u - table_drop;
  if (high > 0.0 && length > table_thickness) {
    const bool ends_in_carbide = length_drop >= u;
    const double low = ends_in_carbide ? 0.0 : u - length_drop;
    const double drop = ends_in_carbide ? high : (length - table_thickness) * tangent;
    const Slice carbide = slice(radius, high, low, drop, sine, tangent);
    flat.carbide_area = carbide.area;
    flat.carbide_volume = carbide.volume;
  }
  return flat;
}

}  // namespace dullcast::geometry
