#include "engine/sweep/sweep_size.hpp"

#include <algorithm>
#include <filesystem>
#include <stdexcept>
#include <system_error>

#include "engine/base/display.hpp"
#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/sweep/case_outcome.hpp"

namespace dullcast::sweep {

double bytes_of_case(const CaseMaker& maker) {
  const KeptHistories& kept = maker.plan().histories;
  constexpr double value = 8.0, numbers = 3.0;  // bytes; case, point and draw
  const double columns = static_cast<double>(maker.inputs().size() + outcome_columns().size()) + numbers;
  double share = static_cast<double>(kept.cases.size()) / static_cast<double>(maker.cases());
  if (kept.every > 0) share += 1.0 / static_cast<double>(kept.every);
  const double course = static_cast<double>(kept.rows) * static_cast<double>(history_columns().size());
  return value * (columns + std::min(1.0, share) * course);
}

void refuse_without_room(const std::string& folder, double bytes, long to_do, long cases) {
  std::error_code unknown;
  const std::filesystem::space_info disk = std::filesystem::space(folder, unknown);
  if (unknown) return;
  const double needed = bytes * (static_cast<double>(to_do) + static_cast<double>(cases));
  const auto room = static_cast<double>(disk.available);
  if (needed <= room) return;
  throw base::FileError(folder, "this disk has " + base::show_bytes(room) +
                                    " free, and what is left to do takes about " + base::show_bytes(needed) +
                                    " (parts, and the file put together from them); plan fewer runs, or "
                                    "write elsewhere with -o");
}

void refuse_without_memory(double bytes, long all, long cases, int threads) {
  cases = std::min(cases, all);
  constexpr double copies = 3.0;  // as made, as handed to HDF5, as it writes them
  // Not more at once than there are.
  const double at_once = std::min(static_cast<double>(all), static_cast<double>(cases) * threads);
  const double needed = copies * bytes * at_once;
  const double had = base::memory_to_be_had();
  if (needed <= had) return;
  throw std::runtime_error("parts of " + std::to_string(cases) + " runs take about " +
                           base::show_bytes(needed) + " of memory on " + std::to_string(threads) +
                           (threads == 1 ? " thread" : " threads") + ", and there are " +
                           base::show_bytes(had) +
                           "; take fewer --threads, smaller --cases-per-part or fewer rows of histories");
}

}  // namespace dullcast::sweep
