#pragma once

/// Counts every request for memory in this test program: operator new and Eigen's arrays end in malloc, and
/// that is where it listens.
namespace dullcast::testing {

/// Requests since the program began, on all threads.
long allocations();

}  // namespace dullcast::testing
