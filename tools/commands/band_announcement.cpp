#include "tools/commands/band_announcement.hpp"

#include "tools/commands/sweep_progress.hpp"

namespace dullcast::commands {

std::string band_ahead_words(const analysis::RunsAhead& ahead, const std::string& what) {
  constexpr double worth_a_word = 60.0;  // s
  if (!(ahead.seconds > worth_a_word)) return {};
  return what + " takes about " + lasting(ahead.seconds) + " more (up to " + std::to_string(ahead.runs) +
         " runs); --central-only does without.";
}

analysis::Announcement announce_band(ProgressLine& line, const std::string& what) {
  return [&line, what](const analysis::RunsAhead& ahead) {
    const std::string words = band_ahead_words(ahead, what);
    if (!words.empty()) line.say(words);
  };
}

}  // namespace dullcast::commands
