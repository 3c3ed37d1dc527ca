#pragma once

namespace dullcast::simulation {

/// How many numbers the engine's loops over cutters and their outlines take at once on this machine, as was
/// found when the program began: 4, 2 or 1. Results do not depend on it, time does.
int numbers_at_once();

}  // namespace dullcast::simulation
