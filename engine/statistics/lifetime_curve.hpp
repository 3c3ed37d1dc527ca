#pragma once

#include <limits>
#include <vector>

namespace dullcast::statistics {

/// How long something lasted, in whatever it is counted: hours, metres, holes.
struct Life {
  double length = 0.0;
  bool ended = true;  // false: it was still well when watching ended (censored on the right)
};

/// The curve just after one length at which lives ended.
struct CurveStep {
  double length = 0.0;
  long at_risk = 0, ended = 0;  // lives not shorter than this; of them, ended here
  double survival = 1.0;        // share that lasts longer
  double variance = 0.0;        // of it, by Greenwood
  double low = 1.0, high = 1.0;
};

struct LifetimeCurve {
  std::vector<CurveStep> steps;  // of rising length; survival is 1 before the first and flat between them
  long lives = 0, censored = 0;
  double seen_to = 0.0;  // longest life, ended or not: the curve says nothing past it
  double confidence = 0.0;
};

/// Product-limit curve: survival just after t is the product over lengths s <= t of 1 - ended/at_risk; lives
/// censored at a length were at risk there. Kaplan & Meier, J. Am. Statist. Assoc. 53, 1958 [pub]. Variance
/// S^2 sum ended/(at_risk (at_risk - ended)) (Greenwood 1926 [pub], from memory), limits S^exp(+-c) with
/// c = z sqrt(sum)/|ln S|: normal limits of ln(-ln S), which stay within 0..1 [hb: Kalbfleisch & Prentice,
/// The Statistical Analysis of Failure Time Data, 1980]. Where the last life at risk ended (S = 0) the lower
/// limit is 0 and the upper one stays where it was. Censoring has to have nothing to do with how soon the
/// life would have ended. Throws std::domain_error for a length that is not finite and >= 0, and for a
/// confidence outside 0..1.
LifetimeCurve lifetime_curve(std::vector<Life> lives, double confidence);

/// Share that lasts longer than `length`; NaN past the longest life seen, unless none is left.
double survival_at(const LifetimeCurve& curve, double length);

/// The length by which a share of lives has ended. Infinity: not reached as long as was watched; low 0 or
/// high infinity: too few lives to say.
struct LifeQuantile {
  double share = 0.0;
  double length = std::numeric_limits<double>::infinity();
  double low = 0.0, high = std::numeric_limits<double>::infinity();
  double confidence = 0.0;
  long lives = 0, censored = 0;
  bool reached() const { return length < std::numeric_limits<double>::infinity(); }
  bool bounded_below() const { return low > 0.0; }
  bool bounded_above() const { return high < std::numeric_limits<double>::infinity(); }
};

/// Quantile of the curve: the first length with survival <= 1 - share, between the first at which the lower
/// limit and the first at which the upper limit is. Brookmeyer & Crowley, Biometrics 38, 1982 [pub], with the
/// log(-log) limits. A side that even uncensored lives of this number could not bound (quantile_ranks) is
/// left open: the normal limits know nothing of a first life that has yet to come. Throws std::domain_error
/// for a share outside 0..1.
LifeQuantile curve_quantile(const LifetimeCurve& curve, double share);

/// The same from the lives themselves, by order statistics (exact, whatever the distribution) where the
/// ranks that matter come before the first censored life, and by curve_quantile where they do not.
LifeQuantile life_quantile(const std::vector<Life>& lives, double share, double confidence);

}  // namespace dullcast::statistics
