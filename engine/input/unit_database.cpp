#include "engine/input/unit_database.hpp"

#include <udunits2.h>

#include <cmath>
#include <cstdlib>
#include <mutex>
#include <new>

#include "engine/base/machine_fault.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/input/units.hpp"

namespace dullcast::input {

namespace {

// UDUNITS-2 ends the process, or takes what it knows for unknown, when it gets no memory; so it is asked for
// beforehand: several times what it takes for its database (half a megabyte) and for one unit (some
// kilobytes).
constexpr std::size_t memory_of_database = std::size_t{8} << 20, memory_of_unit = std::size_t{1} << 20;

struct FreeUnit {
  void operator()(ut_unit* unit) const { ut_free(unit); }
};
struct FreeConverter {
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
struct FreeSystem {
  void operator()(ut_system* system) const { ut_free_system(system); }
};
using UnitPointer = std::unique_ptr<ut_unit, FreeUnit>;

// UDUNITS-2 keeps its last status, its message handler and its grammar's state for the whole process.
std::mutex& one_at_a_time() {
  static std::mutex mutex;
  return mutex;
}

}  // namespace

struct UnitDatabase::Opened {
  std::unique_ptr<ut_system, FreeSystem> units;

  ~Opened() {
    const std::lock_guard<std::mutex> lock(one_at_a_time());
    units.reset();
  }
};

UnitDatabase::UnitDatabase() : opened_(std::make_unique<Opened>()) {
  const std::lock_guard<std::mutex> lock(one_at_a_time());
  ut_set_error_message_handler(ut_ignore);  // a library prints nothing: failures come back as exceptions
  base::ask_for_memory(memory_of_database);
  opened_->units.reset(ut_read_xml(nullptr));
  if (!opened_->units) {
    const char* named = std::getenv("UDUNITS2_XML_PATH");
    throw UnitError("cannot open the UDUNITS-2 database of units; " +
                    (named ? "UDUNITS2_XML_PATH in the environment names \"" + base::plain(named) +
                                 "\": take it away, or "
                           : std::string()) +
                    "install the package libudunits2-data");
  }
}

UnitDatabase::~UnitDatabase() = default;
UnitDatabase::UnitDatabase(UnitDatabase&&) noexcept = default;
UnitDatabase& UnitDatabase::operator=(UnitDatabase&&) noexcept = default;

UnitLine UnitDatabase::line(const std::string& words, const std::string& si) const {
  const std::lock_guard<std::mutex> lock(one_at_a_time());
  base::ask_for_memory(memory_of_unit);
  const UnitPointer from(ut_parse(opened_->units.get(), words.c_str(), UT_UTF8));
  if (!from) {
    if (ut_get_status() == UT_OS) throw std::bad_alloc();
    return {};
  }
  const UnitPointer to(ut_parse(opened_->units.get(), si.c_str(), UT_UTF8));
  if (!to) throw UnitError("the unit database lacks " + si);
  const std::shared_ptr<cv_converter> converter(
      ut_are_convertible(from.get(), to.get()) ? ut_get_converter(from.get(), to.get()) : nullptr,
      FreeConverter());
  if (!converter) return {};
  const UnitLine line = [converter](double x) { return cv_convert_double(converter.get(), x); };
  // UDUNITS also converts between a unit and its reciprocal; that is no straight line, and not what is meant.
  const bool straight =
      std::abs(line(3.0) - 2.0 * line(2.0) + line(1.0)) <= 1e-9 * std::abs(line(3.0) - line(1.0));
  return straight ? line : UnitLine();
}

bool UnitDatabase::knows(const std::string& words) const {
  const std::lock_guard<std::mutex> lock(one_at_a_time());
  base::ask_for_memory(memory_of_unit);
  return UnitPointer(ut_parse(opened_->units.get(), words.c_str(), UT_UTF8)) != nullptr;
}

}  // namespace dullcast::input
