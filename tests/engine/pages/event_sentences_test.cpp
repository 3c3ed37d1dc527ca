#include "engine/pages/event_sentences.hpp"

#include <gtest/gtest.h>

#include <set>

#include "engine/storage/fields.hpp"
#include "models/common/constants.hpp"

namespace dullcast::pages {
namespace {

using simulation::Event;
using simulation::EventKind;

std::string told(EventKind kind, double value, int number = 0, const std::string& word = {}) {
  Event event{kind};
  event.value = value;
  event.number = number;
  event.word = word;
  return event_sentence(event);
}

TEST(EventSentences, EveryKindHasOneOfItsOwn) {
  std::set<std::string> sentences;
  for (const EventKind kind : storage::result_format::all_event_kinds()) {
    const std::string sentence = told(kind, 1.0, 1, "shale");
    ASSERT_GT(sentence.size(), 5u);
    EXPECT_EQ(sentence.find_first_of('.'), sentence.size() - 1) << sentence;
    EXPECT_TRUE(sentences.insert(sentence).second) << sentence;
  }
  EXPECT_THROW(told(static_cast<EventKind>(1000), 1.0), std::logic_error);
}

TEST(EventSentences, SayHowMuchAndWhich) {
  EXPECT_EQ(told(EventKind::chip, 250e-6), "The edge chips, 250 micrometres deep.");
  EXPECT_EQ(told(EventKind::quench, celsius_zero + 431.4), "Cold flow meets diamond at 431 C.");
  EXPECT_EQ(told(EventKind::blade_rubs, 0.0524), "A blade carries weight at radius 52 mm.");
  EXPECT_EQ(told(EventKind::blade_sheared, 0.0, 3), "Blade 3 shears off at its root.");
  EXPECT_EQ(told(EventKind::upset_ends, 0.0, 2), "Upset 2 ends.");
  EXPECT_EQ(told(EventKind::layer_entered, 0.0, 0, "hard_sandstone"), "Enters hard_sandstone.");
  EXPECT_EQ(told(EventKind::stopped_drilling, 20e3),
            "The bit no longer drills at the least progress asked for.");
  EXPECT_EQ(told(EventKind::stopped_drilling, 0.0),
            "No weight is on the bit: the holdback carries pull-down and string.");
}

}  // namespace
}  // namespace dullcast::pages
