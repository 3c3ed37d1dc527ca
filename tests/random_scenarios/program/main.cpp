#include <sys/resource.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "engine/base/child_process.hpp"
#include "engine/simulation/run.hpp"
#include "random_scenarios/drawn_scenario.hpp"
#include "random_scenarios/identities.hpp"

// Drills drawn scenarios by their seeds, in child processes of bounded time and memory, so that one that
// hangs or breaks costs itself only. Prints each that fails, keeps its scenario, and tells figures at the
// end.
namespace {

using dullcast::base::ChildLost;
using dullcast::base::ChildProcess;

// Of a processor for one. The slowest of a hundred thousand took 51 s; one that goes nowhere gives up by
// itself.
constexpr double most_seconds = 120.0;
constexpr std::int64_t at_once = 50;  // of one child

struct Chosen {
  std::int64_t from = 1, count = 1000;
  int threads = 1;
  double slow = 1e300;    // s of a processor from which on a case is told
  std::string keep = {};  // nothing is kept
};

/// What the child sends of one case, before its words.
struct Told {
  double seconds = 0.0;
  int refused = 0, cutters = 0, layers = 0;
  long steps = 0;
  bool undrillable = false;
  std::uint32_t words = 0;
};

double processor_seconds() {
  rusage used{};
  ::getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
         1e-6 * static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

/// In the child: the signal of too much processor time comes after this many more seconds.
void allow(double seconds) {
  rlimit now{};
  if (::getrlimit(RLIMIT_CPU, &now) != 0) return;
  now.rlim_cur = std::min(now.rlim_max, static_cast<rlim_t>(std::ceil(processor_seconds() + seconds)));
  ::setrlimit(RLIMIT_CPU, &now);
}

/// One case: words on what is wrong, a line each; empty when nothing is.
std::string drill(const dullcast::input::ScenarioReader& reader, std::int64_t seed, Told& told) {
  using namespace dullcast;
  std::string words;
  try {
    const random_scenarios::DrawnScenario drawn = random_scenarios::drawn_scenario(reader, seed);
    told.refused = drawn.refused;
    told.cutters = static_cast<int>(drawn.scenario.bit.layout.count());
    told.layers = static_cast<int>(drawn.scenario.column.layers.size());
    const simulation::RunOutcome outcome = simulation::run(drawn.scenario);
    told.steps = outcome.steps;
    for (const std::string& one : random_scenarios::broken_identities(drawn.scenario, outcome))
      words += (words.empty() ? "" : "; ") + one;
  } catch (const std::exception& failure) {
    // A bit that no weight holds against the rock is a bit that one may write down.
    told.undrillable = std::strstr(failure.what(), "cutting pushes none of these cutters up") != nullptr;
    if (!told.undrillable) words = std::string("ends with: ") + failure.what();
  }
  return words;
}

class Figures {
 public:
  explicit Figures(const Chosen& chosen) : chosen_(chosen) {}

  void add(std::int64_t seed, const Told& told, const std::string& words) {
    const std::lock_guard<std::mutex> lock(mutex_);
    ++run_;
    refused_ += told.refused;
    undrillable_ += told.undrillable ? 1 : 0;
    seconds_.push_back(told.seconds);
    most_cutters_ = std::max(most_cutters_, told.cutters);
    most_layers_ = std::max(most_layers_, told.layers);
    if (told.seconds > slowest_) {
      slowest_ = told.seconds;
      slowest_seed_ = seed;
    }
    if (told.seconds >= chosen_.slow)
      std::cout << "seed " << seed << " takes " << told.seconds << " s (" << told.cutters << " cutters, "
                << told.layers << " layers, " << told.steps << " steps)" << std::endl;
    if (words.empty()) return;
    ++failed_;
    std::cout << "seed " << seed << ": " << words << std::endl;
    if (chosen_.keep.empty()) return;
    std::filesystem::create_directories(chosen_.keep);
    std::ofstream(chosen_.keep + "/" + std::to_string(seed) + ".yaml")
        << dullcast::random_scenarios::drawn_text(seed, told.refused);
  }

  /// Whether all held.
  bool tell() {
    std::sort(seconds_.begin(), seconds_.end());
    const auto quantile = [&](double share) {
      return seconds_.empty()
                 ? 0.0
                 : 1e3 * seconds_[static_cast<std::size_t>(share * static_cast<double>(seconds_.size() - 1))];
    };
    double sum = 0.0;
    for (const double one : seconds_) sum += one;
    std::cout << run_ - failed_ << " of " << run_ << " random scenarios held (seeds " << chosen_.from
              << " to " << chosen_.from + chosen_.count - 1 << "); " << refused_
              << " texts were refused on the way\n"
              << "processor time: " << sum << " s in all; of one " << quantile(0.5) << " ms in the middle, "
              << quantile(0.99) << " ms for 1 in 100, " << 1e3 * slowest_ << " ms at most (seed "
              << slowest_seed_ << ")\n"
              << "most cutters: " << most_cutters_ << ", most layers: " << most_layers_ << "; "
              << undrillable_ << " bits that cutting does not push up, and so no run\n";
    return failed_ == 0 && run_ == chosen_.count;
  }

 private:
  const Chosen& chosen_;
  std::mutex mutex_;
  std::int64_t run_ = 0, failed_ = 0, refused_ = 0, undrillable_ = 0, slowest_seed_ = 0;
  int most_cutters_ = 0, most_layers_ = 0;
  double slowest_ = 0.0;
  std::vector<double> seconds_;
};

/// The cases from `seed` up to `end`, in children; the next child begins behind a case that broke one.
void drill_all(const dullcast::input::ScenarioReader& reader, std::int64_t seed, std::int64_t end,
               Figures& figures) {
  while (seed < end) {
    dullcast::base::ChildLimits limits;
    limits.processor_time = most_seconds * static_cast<double>(end - seed) + 1.0;
    limits.time = 20.0 * limits.processor_time;
    limits.memory = std::size_t{1} << 30;
    ChildProcess child(
        [&](const ChildProcess::Send& send) {
          for (std::int64_t k = seed; k < end; ++k) {
            allow(most_seconds);
            Told told;
            const double begun = processor_seconds();
            const std::string words = drill(reader, k, told);
            told.seconds = processor_seconds() - begun;
            told.words = static_cast<std::uint32_t>(words.size());
            send(&told, sizeof told);
            send(words.data(), words.size());
          }
        },
        limits);
    try {
      for (; seed < end; ++seed) {
        Told told;
        child.read(&told, sizeof told);
        std::string words(told.words, '\0');
        child.read(words.data(), words.size());
        figures.add(seed, told, words);
      }
    } catch (const ChildLost& lost) {
      Told told;
      const bool too_long = lost.end() == dullcast::base::ChildEnd::too_long;
      told.seconds = too_long ? most_seconds : 0.0;
      figures.add(seed++, told,
                  too_long ? "does not end within " + std::to_string(static_cast<int>(most_seconds)) + " s"
                           : "breaks the program");
    }
  }
}

[[noreturn]] void usage() {
  std::cerr
      << "Usage: random-scenarios [--from SEED] [--count N] [--threads N] [--keep FOLDER] [--slow MS] "
         "[--show SEED]\n"
         "Drills N random scenarios (1000) from SEED (1) on and looks whether what holds for every run\n"
         "holds. Scenarios that fail are kept in FOLDER. --slow tells those that "
         "take\n"
         "as many milliseconds; --show prints one.\n";
  std::exit(2);
}

std::int64_t number(const char* text) {
  char* end = nullptr;
  errno = 0;
  const long long value = std::strtoll(text, &end, 10);
  if (end == text || *end != '\0' || value < 0 || errno != 0) usage();
  return value;
}

}  // namespace

int main(int count, char** words) {
  Chosen chosen;
  std::int64_t show = -1;
  for (int k = 1; k < count; k += 2) {
    const std::string word = words[k];
    if (k + 1 == count) usage();
    if (word == "--from")
      chosen.from = number(words[k + 1]);
    else if (word == "--count")
      chosen.count = number(words[k + 1]);
    else if (word == "--threads")
      chosen.threads = static_cast<int>(number(words[k + 1]));
    else if (word == "--keep")
      chosen.keep = words[k + 1];
    else if (word == "--slow")
      chosen.slow = 1e-3 * static_cast<double>(number(words[k + 1]));
    else if (word == "--show")
      show = number(words[k + 1]);
    else
      usage();
  }
  const dullcast::input::ScenarioReader reader(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  if (show >= 0) {
    std::cout << dullcast::random_scenarios::drawn_scenario(reader, show).text;
    return 0;
  }
  Figures figures(chosen);
  std::atomic<std::int64_t> next{chosen.from};
  const std::int64_t end = chosen.from + chosen.count;
  std::vector<std::thread> threads;
  for (int t = 0; t < std::max(1, chosen.threads); ++t) {
    threads.emplace_back([&] {
      for (std::int64_t seed = next.fetch_add(at_once); seed < end; seed = next.fetch_add(at_once))
        drill_all(reader, seed, std::min(seed + at_once, end), figures);
    });
  }
  for (std::thread& thread : threads) thread.join();
  return figures.tell() ? 0 : 1;
}
