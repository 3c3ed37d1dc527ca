#pragma once

#include <string>

#include "engine/analysis/findings.hpp"
#include "engine/base/display.hpp"

/// How findings are said: values with what is known of them, and where the draws are too few.
namespace dullcast::commands {

/// The name that people and tables call a measure of life by: "hole", "footage", "rotating_time".
const char* measure_name(analysis::LifeMeasure measure);
/// "P10" for 0.1.
std::string share_name(double share);
std::string measure_words(double life, analysis::LifeMeasure measure, base::ShownUnits units);

/// "12 h (10 h to 15 h)"; "not within the 40 holes drilled (95 %: not before 30 h)"; "too few draws to say"
/// for an end or all of it.
std::string quantile_words(const statistics::LifeQuantile& quantile, const analysis::LifeFinding& life,
                           analysis::LifeMeasure measure, base::ShownUnits units);

/// A chance with its interval: "40 % (30 to 50 %)".
std::string probability_words(double share, const statistics::Interval& range);

/// A value of a column with its unit as a person reads it; words where the column has words.
std::string column_value_words(const storage::SweepColumn& column, double value, base::ShownUnits units);

/// All settings of a point (from 0): "weight on bit 6750 lbf, rotary speed 90 rpm".
std::string settings_words(const storage::SweepTable& table, long point, base::ShownUnits units);

/// What an outcome of the sensitivities is called, and a difference in it: "24 h", "1.2 $/ft", "30 F deg".
std::string outcome_words(const std::string& outcome);
std::string outcome_difference_words(const std::string& outcome, double difference,
                                     const std::string& currency, base::ShownUnits units);

}  // namespace dullcast::commands
