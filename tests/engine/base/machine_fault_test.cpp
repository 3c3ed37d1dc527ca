#include "engine/base/machine_fault.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <new>
#include <stdexcept>
#include <system_error>

#include "engine/base/file_error.hpp"

namespace dullcast::base {
namespace {

TEST(MachineFault, IsToldFromWhatTheWorkItselfDidWrong) {
  EXPECT_TRUE(is_machine_fault(std::bad_alloc()));
  EXPECT_TRUE(is_machine_fault(std::bad_array_new_length())) << "no memory, by another name";
  EXPECT_TRUE(is_machine_fault(std::system_error(std::make_error_code(std::errc::no_space_on_device))));
  EXPECT_TRUE(is_machine_fault(FileError("a.h5", "the disk is full")));
  EXPECT_FALSE(is_machine_fault(std::runtime_error("the step became too small")));
  EXPECT_FALSE(is_machine_fault(std::invalid_argument("no such rock")));
}

TEST(MachineFault, SpeaksInWordsOfPeople) {
  EXPECT_EQ(machine_sentence(std::bad_alloc()).find("bad_alloc"), std::string::npos);
  EXPECT_EQ(machine_sentence(FileError("a.h5", "the disk is full")), "a.h5: the disk is full");
}

TEST(MachineFault, MemoryThatIsThereIsGivenAndTooMuchIsRefused) {
  EXPECT_NO_THROW(ask_for_memory(std::size_t{1} << 20));
  EXPECT_THROW(ask_for_memory(std::size_t{1} << 60), std::bad_alloc) << "no machine has that many addresses";
  EXPECT_GT(memory_to_be_had(), 1e6);
}

}  // namespace
}  // namespace dullcast::base
