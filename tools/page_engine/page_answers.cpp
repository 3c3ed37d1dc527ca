#include "tools/page_engine/page_answers.hpp"

#include <stdexcept>
#include <utility>
#include <vector>

#include "engine/analysis/forecast.hpp"
#include "engine/base/program_version.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/text_with_sets.hpp"
#include "engine/pages/card_view.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/run_view.hpp"
#include "tools/page_engine/run_numbers.hpp"

namespace dullcast::page_engine {
namespace {

using nlohmann::json;
using pages::run_view;

/// What a page asks that no page of ours would.
class WrongRequest : public std::invalid_argument {
 public:
  using std::invalid_argument::invalid_argument;
};

json refused(const std::vector<std::string>& problems) {
  return {{"ok", false}, {"problems", problems}};
}

json as_json(const std::vector<input::Warning>& warnings) {
  json result = json::array();
  for (const input::Warning& warning : warnings) {
    result.push_back({{"line", warning.location.line},
                      {"column", warning.location.column},
                      {"key", warning.key},
                      {"text", warning.text}});
  }
  return result;
}

base::ShownUnits units_of(const std::string& word) {
  if (word == "si") return base::ShownUnits::si;
  if (word == "both") return base::ShownUnits::both;
  if (word == "field") return base::ShownUnits::field;
  throw WrongRequest("units are field, si or both, not " + word);
}

/// What a request says of its scenario.
struct Asked {
  std::string what, text, file;
  std::vector<std::string> sets;
  pages::RunViewOptions view;
  bool exact = false;
};

Asked asked_of(const json& request) {
  constexpr std::size_t usual_rows = 300, least_rows = 2, most_rows = 20000;
  Asked asked;
  asked.what = request.at("ask").get<std::string>();
  if (asked.what == "open") return asked;
  asked.text = request.at("scenario").get<std::string>();
  asked.file = request.value("file", "scenario.yaml");
  asked.sets = request.value("sets", std::vector<std::string>{});
  asked.exact = request.value("exact", false);
  asked.view.name = asked.file;
  asked.view.made_by = "dullcast " + base::program_version();
  asked.view.units = units_of(request.value("units", "field"));
  asked.view.most_rows = std::clamp(request.value("rows", usual_rows), least_rows, most_rows);
  return asked;
}

input::LibraryTexts library_of(const json& request) {
  const json& library = request.at("library");
  input::LibraryTexts texts;
  texts.folder = library.value("folder", "library");
  texts.files = library.at("files").get<std::map<std::string, std::string>>();
  return texts;
}

/// The run of a scenario, or its forecast, as `view`.
json drilled(const scenario::Scenario& scenario, Asked asked) {
  analysis::ForecastOptions options;
  options.band = asked.what != "run";
  const analysis::Forecast forecast = analysis::forecast(scenario, options);
  asked.view.learned_from = forecast.learned_from;
  asked.view.effects = forecast.effects;
  const std::vector<simulation::LifeEnd> band =
      options.band ? analysis::band_of(forecast) : std::vector<simulation::LifeEnd>{};
  json result = {{"view", run_view(scenario, forecast.central, band, asked.view)}};
  if (asked.exact) result["numbers"] = run_numbers(forecast.central);
  if (asked.what == "card") {
    result["card"] =
        pages::card_view(scenario, forecast.central, band, pages::card_flows(scenario, 1), asked.view);
  }
  return result;
}

json answer_of(const input::ScenarioReader& reader, Asked asked) {
  if (asked.what == "change") {
    return {{"ok", true}, {"text", input::text_with_sets(asked.text, asked.file, asked.sets)}};
  }
  const bool drills = asked.what == "run" || asked.what == "forecast" || asked.what == "card";
  if (!drills && asked.what != "check") throw WrongRequest("nothing is known of " + asked.what);
  std::vector<input::Warning> warnings;
  const scenario::Scenario scenario = reader.read_text(asked.text, asked.file, asked.sets, warnings);
  if (!scenario.bit.continues.empty()) {
    throw std::invalid_argument(asked.file +
                                ": bit.continues: goes on from an earlier result, which a page cannot open; "
                                "drill it with dullcast run, or state starting_wear");
  }
  json result = {{"ok", true}, {"warnings", as_json(warnings)}};
  if (drills) {
    result.update(drilled(scenario, std::move(asked)));
  } else {
    result["title"] = scenario.title;
    result["resolved"] = scenario.text;
  }
  return result;
}

}  // namespace

struct PageAnswers::Opened {
  input::ScenarioReader reader;
};

PageAnswers::PageAnswers() = default;
PageAnswers::~PageAnswers() = default;

std::string PageAnswers::answer(const std::string& request) {
  try {
    const json said = json::parse(request);
    Asked asked = asked_of(said);
    if (asked.what == "open") {
      // Not every compiler has make_unique for aggregates. NOLINTNEXTLINE(modernize-make-unique):
      opened_.reset(new Opened{input::ScenarioReader(library_of(said))});
      return pages::json_text({{"ok", true}});
    }
    if (!opened_) throw WrongRequest("the library was not opened");
    return pages::json_text(answer_of(opened_->reader, std::move(asked)));
  } catch (const input::ScenarioErrors& errors) {
    return pages::json_text(refused(errors.messages()));
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& failure) {
    return pages::json_text(refused({failure.what()}));
  }
}

}  // namespace dullcast::page_engine
