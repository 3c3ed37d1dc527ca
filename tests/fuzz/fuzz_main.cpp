#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

#include "fuzz/feeds.hpp"

// What libFuzzer calls: one program for all readers, of which DULLCAST_FEED in the environment names one.
namespace {

const dullcast::fuzz::Feed& chosen() {
  static const dullcast::fuzz::Feed* feed = [] {
    const char* name = std::getenv("DULLCAST_FEED");
    for (const dullcast::fuzz::Feed& one : dullcast::fuzz::feeds()) {
      if (name && std::strcmp(name, one.name) == 0) return &one;
    }
    std::fprintf(stderr, "fuzz-readers: DULLCAST_FEED names one of:");
    for (const dullcast::fuzz::Feed& one : dullcast::fuzz::feeds()) std::fprintf(stderr, " %s", one.name);
    std::fprintf(stderr, "\n");
    std::exit(2);
  }();
  return *feed;
}

}  // namespace

// UDUNITS-2 loses the words of a unit whose grammar is wrong, some tens of bytes at a time (its lexer, utlex;
// seen in 2.2.28); nothing that calls it can give them back. The sanitizer looks for this name.
// NOLINTNEXTLINE(bugprone-reserved-identifier,readability-identifier-naming)
extern "C" const char* __lsan_default_suppressions() {
  return "leak:utlex\n";
}

// A fault, or an exception that is none of a reader's, goes through: libFuzzer keeps the bytes. It looks for
// this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  chosen().take(std::string(reinterpret_cast<const char*>(bytes), count));
  return 0;
}
