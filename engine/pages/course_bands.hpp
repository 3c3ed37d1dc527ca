#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/storage/sweep_table.hpp"

namespace dullcast::pages {

/// Fewest runs of which a band is told.
inline constexpr long least_courses = 5;

/// Bands of the kept courses of a sweep over footage, member `course` of sweep_view: at even steps of footage
/// 10, 50 and 90 % of the runs, linearly between the rows kept, as far as at least half of the courses (and
/// least_courses of them) reach. A run that ended before stays as worn as it was then, so that the band does
/// not shrink as the worst drop out; of heat and progress it is in the band no longer. Null where fewer than
/// least_courses were kept.
///   {courses, footage: [m], runs: [how many got so far], bands: [{outcome, name TEXT, kind KIND, low,
///   middle, high: [...]}]}
nlohmann::json course_bands(const storage::SweepCourses& courses);

}  // namespace dullcast::pages
