#include "engine/simulation/allocation_count.hpp"

#include <atomic>
#include <cerrno>
#include <cstddef>

namespace {
std::atomic<long> requests{0};
}

namespace dullcast::testing {
long allocations() {
  return requests.load();
}
}  // namespace dullcast::testing

#if defined(__SANITIZE_ADDRESS__)

// The sanitizer has taken malloc already, and offers to tell. Declared here, for not every compiler package
// brings the header sanitizer/allocator_interface.h.
extern "C" int __sanitizer_install_malloc_and_free_hooks(void (*malloc_hook)(const volatile void*,
                                                                             std::size_t),
                                                         void (*free_hook)(const volatile void*));

namespace {
void note_request(const volatile void*, std::size_t) {
  requests.fetch_add(1);
}
void note_release(const volatile void*) {}
[[maybe_unused]] const int installed = __sanitizer_install_malloc_and_free_hooks(note_request, note_release);
}  // namespace

#else

// The GNU C library lets a program bring its own malloc; these count and hand on to the library's own.
extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);
void* __libc_memalign(std::size_t alignment, std::size_t size);

void* malloc(std::size_t size) {
  requests.fetch_add(1);
  return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) {
  requests.fetch_add(1);
  return __libc_calloc(count, size);
}
void* realloc(void* old, std::size_t size) {
  requests.fetch_add(1);
  return __libc_realloc(old, size);
}
void* aligned_alloc(std::size_t alignment, std::size_t size) {
  requests.fetch_add(1);
  return __libc_memalign(alignment, size);
}
int posix_memalign(void** out, std::size_t alignment, std::size_t size) {
  requests.fetch_add(1);
  *out = __libc_memalign(alignment, size);
  return *out ? 0 : ENOMEM;
}
}

#endif
