#pragma once

#include <string>
#include <vector>

#include "engine/analysis/findings.hpp"

namespace dullcast::commands {

/// Writes findings as comma-separated values into `folder`, which is made when it is not there; files of the
/// same names are replaced. SI units, counts from 1; inf: not reached or too few draws for a bound; nan: not
/// known. Commas in words are told by quotes.
///   about.csv          name, value: title, design, points, draws, failed, confidence, currency, scope,
///   point;
///                      lives_ended, lives_not_ended, life_ranked: of the runs that sensitivities look at
///   lives.csv          measure, unit, share, value, low, high, draws, due (the life told in the report)
///   finishing.csv      draws, failed, due, finished, ended_otherwise, chance, low, high
///   lifetime_curve.csv rotating_time_s, at_risk, due, survival, variance, low, high; seen_to_s in about.csv
///   weibull.csv        rotating_time_s, share: plotted points; the fit is in about.csv
///   points.csv         one line a point: settings by column, then what it came to
///   life_by_point.csv  point, measure, unit, share, value, low, high, draws, due
///   sensitivities.csv  (without life where no life ended) outcome, unit, kind, factor, then size or total or
///   rank with its interval, mean, spread,
///                      and the share alone with its interval
///   failures.csv       case, message: all of them
/// Tables that the sweep does not give are not written, and an older file of that name is taken away.
/// Throws ResultError.
void write_findings(const std::string& folder, const storage::SweepTable& table,
                    const analysis::Findings& findings);

/// The names of all files that it may write or take away.
std::vector<std::string> findings_files();

}  // namespace dullcast::commands
