#pragma once

#include <string>

/// Values of a scenario that runs of a sweep do not look at: moved by a plan, they would give runs that are
/// all alike or those of another bit, and nobody would notice.
namespace dullcast::sweep {

/// Why a sweep cannot move the value at this path (as --set writes it): the end of a sentence that begins
/// with the path. Empty where it can.
std::string why_not_moved(const std::string& path);

/// Whether nothing of what a sweep keeps depends on the value at this path, so that moving it makes no
/// difference there.
bool makes_no_difference(const std::string& path);

}  // namespace dullcast::sweep
