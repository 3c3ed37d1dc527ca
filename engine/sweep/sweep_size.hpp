#pragma once

#include <string>

#include "engine/sweep/case_maker.hpp"

/// How much room a sweep's results take.
namespace dullcast::sweep {

/// About how many bytes a case takes in a sweep's file, and once more as long as it stands in a part.
double bytes_of_case(const CaseMaker& maker);

/// Refuses what the disk that `folder` is on has no room for: `to_do` cases as parts, and all `cases` in the
/// sweep's file, each of `bytes`. Where the room is not known, nothing is refused. Throws base::FileError.
void refuse_without_room(const std::string& folder, double bytes, long to_do, long cases);

/// Refuses parts of `cases` out of `all`, each case of `bytes`, that as many threads cannot hold in this
/// machine's memory. Throws std::runtime_error.
void refuse_without_memory(double bytes, long all, long cases, int threads);

}  // namespace dullcast::sweep
