#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>

#include "engine/input/text_file.hpp"
#include "fuzz/feeds.hpp"

// What fuzzing found worth keeping, and every file that once broke a reader, fed to the readers again.
namespace dullcast::fuzz {
namespace {

class KeptInputs : public ::testing::TestWithParam<Feed> {};

TEST_P(KeptInputs, AreReadOrRefusedWithAPlaceAndSoon) {
  const std::string folder = std::string(DULLCAST_SOURCE_DIR) + "/tests/fuzz/corpus/" + GetParam().name;
  std::size_t fed = 0;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    ++fed;
    const auto begun = std::chrono::steady_clock::now();
    EXPECT_NO_THROW(GetParam().take(input::read_text_file(file.path().string()))) << file.path();
    // Many times what any takes under a sanitizer.
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(20)) << file.path();
  }
  EXPECT_GE(fed, 5u);
}

INSTANTIATE_TEST_SUITE_P(OfEach, KeptInputs, ::testing::ValuesIn(feeds()),
                         [](const auto& feed) { return std::string(feed.param.name); });

}  // namespace
}  // namespace dullcast::fuzz
