#include "engine/base/program_version.hpp"

#include "build_stamp.hpp"

namespace dullcast::base {

std::string program_version() {
  return DULLCAST_VERSION;
}

std::string program_commit() {
  return DULLCAST_COMMIT;
}

std::string program_day() {
  return DULLCAST_DAY;
}

}  // namespace dullcast::base
