#include "engine/base/machine_fault.hpp"

#include <sys/mman.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <limits>
#include <new>
#include <system_error>

#include "engine/base/file_error.hpp"

namespace dullcast::base {

bool is_machine_fault(const std::exception& error) {
  return dynamic_cast<const std::bad_alloc*>(&error) != nullptr ||
         dynamic_cast<const std::system_error*>(&error) != nullptr ||
         dynamic_cast<const FileError*>(&error) != nullptr;
}

std::string machine_sentence(const std::exception& error) {
  if (dynamic_cast<const std::bad_alloc*>(&error) != nullptr)
    return "there is not enough memory, or a limit (ulimit -v) allows no more";
  return error.what();
}

void ask_for_memory(std::size_t bytes) {
  // From the system itself, so that what malloc does with its own stays as it was.
  void* piece = ::mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  if (piece == MAP_FAILED) throw std::bad_alloc();
  ::munmap(piece, bytes);
}

double memory_to_be_had() {
  constexpr double kilo = 1024.0;  // /proc states kibibytes
  double bytes = std::numeric_limits<double>::infinity();
  std::ifstream machine("/proc/meminfo");
  std::string word;
  for (double amount = 0.0; machine >> word;) {
    if (word == "MemAvailable:" && machine >> amount) bytes = kilo * amount;
  }
  struct rlimit limit {};
  if (::getrlimit(RLIMIT_AS, &limit) == 0 && limit.rlim_cur != RLIM_INFINITY) {
    double pages = 0.0;
    std::ifstream("/proc/self/statm") >> pages;
    const double taken = pages * static_cast<double>(::sysconf(_SC_PAGESIZE));
    bytes = std::min(bytes, std::max(0.0, static_cast<double>(limit.rlim_cur) - taken));
  }
  return bytes;
}

}  // namespace dullcast::base
