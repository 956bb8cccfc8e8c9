// SPDX-License-Identifier: MIT
#include "tests/sim/solve/allocation_count.hpp"

#include <cstddef>

#if defined(__SANITIZE_ADDRESS__)
#define HATRING_SANITIZER_OWNS_MALLOC
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define HATRING_SANITIZER_OWNS_MALLOC
#endif
#endif

#ifdef HATRING_SANITIZER_OWNS_MALLOC

long hatring::test::allocations() {
  return -1;
}

#else

namespace {
long count = 0;
}

// The C library's own allocator, under the name it keeps for programs that wrap malloc.
extern "C" void* __libc_malloc(std::size_t size);  // NOLINT(bugprone-reserved-identifier)
extern "C" void* malloc(std::size_t size) {
  ++count;
  return __libc_malloc(size);
}

long hatring::test::allocations() {
  return count;
}

#endif
