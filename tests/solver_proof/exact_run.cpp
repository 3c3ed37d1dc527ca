#include "solver_proof/exact_run.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <limits>
#include <set>
#include <stdexcept>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/resting_state.hpp"
#include "engine/simulation/schedule.hpp"
#include "solver_proof/cvode.hpp"

namespace dullcast::testing {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

constexpr double longest_run = 1e7;  // s: a bit that has not come down by then stands still

// The events' definitions (engine/simulation/outcome.hpp).
constexpr double packed_from = 0.9, clear_from = 0.5;  // packing
constexpr double dry_from = 0.02;                      // water over its full amount

enum Root { depth_root, worn_root, ruin_root, boil_root, film_root, pack_root, dry_root, blade_root, roots };

class ExactDriller {
 public:
  ExactDriller(const scenario::Scenario& scenario, double tolerance, const std::vector<AskedTime>& asked)
      : scenario_(scenario),
        asked_(asked),
        bench_(scenario),
        watcher_(scenario),
        layout_(bench_.system.layout()),
        schedule_(scenario, bench_.models),
        x_(simulation::State::Zero(layout_.size())),
        cvode_(
            x_, tolerance, absolute(bench_.system.error_scale(), tolerance),
            [this](const simulation::State& x, simulation::State& slope) {
              bench_.system(x, slope, 0.0);
              return true;
            },
            roots, [this](const simulation::State& x, double* values) { watch(x, values); }) {
    if (scenario.random_events.drawn || scenario.bit.starting_lost.any() ||
        scenario.bit.starting_table_gone.any() || scenario.bit.starting_erosion > 0.0)
      throw std::invalid_argument("an exact run knows neither drawn chance nor damaged bits");
    layout_.worn(x_) = scenario.bit.starting_wear;
    layout_.damage(x_) = scenario.bit.starting_damage;
  }

  ExactRun drill_all() {
    const std::clock_t began = std::clock();
    for (hole_ = 0; hole_ < scenario_.repeat.holes; ++hole_) {
      drill_hole();
      trips_ += scenario_.repeat.trip_time;
    }
    see_until(never, false);
    run_.end = x_;
    run_.steps = cvode_.steps();
    run_.right_hand_sides = bench_.system.evaluations();
    run_.seconds = static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
    run_.pieces = pieces_;
    for (std::size_t k = 0; k < run_.seen.size(); ++k)
      for (const double ruin : ruins_)
        run_.seen[k].to_ruin = std::min(run_.seen[k].to_ruin, std::abs(seen_at_[k] - ruin));
    return std::move(run_);
  }

 private:
  static simulation::State absolute(const simulation::State& scale, double tolerance) {
    // Energies steer nothing: a scale far above what is spent keeps infinity out of CVODE's sums.
    return tolerance * scale.array().isFinite().select(scale.array(), 1e9);
  }

  void watch(const simulation::State& x, double* values) {
    watcher_.evaluate(x);
    const simulation::Evaluation& now = watcher_.system.evaluation();
    values[depth_root] = x(layout_.depth()) - next_depth_;
    values[worn_root] = due_ || !scenario_.rules.worn_height
                            ? -1.0
                            : layout_.worn(x).maxCoeff() - *scenario_.rules.worn_height;
    double damage = 0.0;
    for (Eigen::Index i = 0; i < layout_.cutters; ++i)
      if (!watcher_.system.ruined(i)) damage = std::max(damage, layout_.damage(x)(i));
    values[ruin_root] = damage - 1.0;
    values[boil_root] = watcher_.system.near_boiling(x);
    values[film_root] = (now.heats.film.maxCoeff() > 0.0) != film_ ? 1.0 : -1.0;
    values[pack_root] =
        packed_ ? clear_from - now.bottom.slot.packing : now.bottom.slot.packing - packed_from;
    values[dry_root] = dry_ ? -1.0 : dry_from - x(layout_.water());
    values[blade_root] = now.forces.balance.blade_weight > 0.0 ? 1.0 : -1.0;
  }

  void tell(simulation::EventKind kind) {
    run_.events.push_back({kind, hole_, cvode_.time() + trips_, x_(layout_.depth())});
  }
  void tell_first(simulation::EventKind kind) {
    if (told_.insert(kind).second) tell(kind);
  }

  /// What to do where value `root` rose through 0. True where the equations are others from here on.
  bool act(int root) {
    switch (root) {
      case worn_root:
        due_ = true;
        tell(simulation::EventKind::rework_due);
        return false;
      case ruin_root: {
        Eigen::Index worst = 0;
        double damage = -1.0;
        for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
          if (watcher_.system.ruined(i) || layout_.damage(x_)(i) <= damage) continue;
          worst = i;
          damage = layout_.damage(x_)(i);
        }
        bench_.system.set_ruined(worst);
        watcher_.system.set_ruined(worst);
        tell(simulation::EventKind::table_ruined);
        ruins_.push_back(cvode_.time());
        return true;
      }
      case boil_root:
        tell_first(simulation::EventKind::fluid_boils);
        return false;
      case film_root:
        film_ = !film_;
        watcher_.evaluate(x_);
        // A film that ends because the water has boiled away is told as running dry.
        if (film_ || watcher_.system.evaluation().cooling.wetted_share >= 0.5)
          tell_first(film_ ? simulation::EventKind::film_forms : simulation::EventKind::surface_rewets);
        return false;
      case pack_root:
        packed_ = !packed_;
        tell_first(packed_ ? simulation::EventKind::slots_pack : simulation::EventKind::slots_clear);
        return false;
      case dry_root:
        dry_ = true;
        tell(simulation::EventKind::runs_dry);
        return false;
      case blade_root:
        tell_first(simulation::EventKind::blade_rubs);
        return false;
      default:
        return false;
    }
  }

  void enter() {
    const simulation::DrillingInterval& s = schedule_.current();
    const Piece piece{hole_, s.layer, s.rotary_speed, s.flow};
    const bool other = !(piece == piece_);
    if (other) see_until(never, false);
    bench_.system.enter(s);
    watcher_.system.enter(s);
    if (other) {
      piece_ = piece;
      ++pieces_;
      piece_began_ = cvode_.time();
    }
    see_until(cvode_.time(), false);
    open_books();
    // What holds from the start does not rise through 0.
    double values[roots];
    watch(x_, values);
    for (const int root : {boil_root, film_root, pack_root, dry_root, blade_root})
      if (values[root] >= 0.0) act(root);
  }
  // What a change of settings takes away from the fluid's amount or the warm skin stays in the ground and is
  // no part of the solver's work: energies are summed within one setting.
  void open_books() {
    opened_ = x_;
    stored_ = bench_.system.stored_heat(x_, bench_.models.ground.inlet_temperature);
    cvode_.restart(cvode_.time(), x_, schedule_.next_time());
  }
  void close_books() {
    const auto gained = [&](Eigen::Index k) { return x_(k) - opened_(k); };
    run_.energy_spent += gained(layout_.spent());
    run_.energy_gap += gained(layout_.spent()) - gained(layout_.carried()) - gained(layout_.left_in_rock()) -
                       (bench_.system.stored_heat(x_, bench_.models.ground.inlet_temperature) - stored_);
  }

  void see(const simulation::State& x) {
    // CVODE's water may lie below none by its tolerance; the books are held where there is none.
    simulation::State there = x;
    there(layout_.water()) = std::max(there(layout_.water()), 0.0);
    const double gap = std::abs(testing::ledger_gap(watcher_, there));
    if (!std::isnan(run_.power_gap) && !(gap <= run_.power_gap)) run_.power_gap = gap;
    run_.seen.push_back({x, watcher_.system.evaluation().heats.flat_temperature, never});
  }
  /// Sees what was asked for in this piece up to time t.
  void see_until(double t, bool by_polynomial) {
    simulation::State x = x_;
    while (run_.seen.size() < asked_.size()) {
      const AskedTime& next = asked_[run_.seen.size()];
      const double when = piece_began_ + next.since;
      if (next.piece != pieces_ - 1 || when > t) break;
      if (by_polynomial) cvode_.state_at(when, x);
      seen_at_.push_back(when);
      see(x);
    }
  }
  void drill_hole() {
    const simulation::RunModels& models = bench_.models;
    see_until(never, false);
    simulation::rest(models, x_);
    told_.clear();
    film_ = packed_ = dry_ = false;
    schedule_.begin_hole(hole_, models.intervals.front().top);
    for (const simulation::DrillingInterval& interval : models.intervals) {
      x_(layout_.depth()) = interval.top;
      schedule_.follow(interval);
      if (&interval == &models.intervals.front() || (&interval - 1)->layer != interval.layer)
        tell(simulation::EventKind::layer_entered);
      enter();
      while (x_(layout_.depth()) < interval.bottom) drill_on(interval);
      close_books();
    }
    tell(simulation::EventKind::hole_finished);
  }

  /// To the next change of the schedule, the end of the interval or an event that changes the equations.
  void drill_on(const simulation::DrillingInterval& interval) {
    if (cvode_.time() >= schedule_.next_time() - simulation::same_time ||
        x_(layout_.depth()) >= schedule_.next_depth()) {
      close_books();
      for (const simulation::Schedule::Change& change :
           schedule_.advance(x_(layout_.depth()), cvode_.time())) {
        if (change.kind == simulation::Schedule::Kind::upset_begins)
          tell(simulation::EventKind::upset_begins);
        if (change.kind == simulation::Schedule::Kind::upset_ends) tell(simulation::EventKind::upset_ends);
      }
      enter();
      if (x_(layout_.depth()) >= schedule_.next_depth()) return;
    }
    next_depth_ = std::min(interval.bottom, schedule_.next_depth());
    const double until = schedule_.next_time();
    while (cvode_.time() < until - simulation::same_time) {
      const int root = cvode_.step();
      if (cvode_.time() > longest_run) throw std::runtime_error("the bit stands still");
      see_until(root < 0 ? cvode_.time() : std::nextafter(cvode_.time(), 0.0), true);
      cvode_.state_at(cvode_.time(), x_);
      if (root == depth_root) {
        x_(layout_.depth()) = next_depth_;
        return;
      }
      if (root >= 0 && act(root)) {
        close_books();
        open_books();
      }
    }
  }

  const scenario::Scenario& scenario_;
  const std::vector<AskedTime>& asked_;
  testing::Bench bench_;
  testing::Bench watcher_;  // looks at states without moving the first guess of what CVODE steps
  simulation::StateLayout layout_;
  simulation::Schedule schedule_;
  simulation::State x_;
  Cvode cvode_;
  ExactRun run_;
  simulation::State opened_;
  double stored_ = 0.0, trips_ = 0.0, next_depth_ = never;
  int hole_ = 0;
  bool due_ = false, film_ = false, packed_ = false, dry_ = false;
  std::set<simulation::EventKind> told_;
  std::vector<double> ruins_, seen_at_;  // s
  int pieces_ = 0;
  double piece_began_ = 0.0;
  struct Piece {
    int hole = -1, layer = -1;
    double rotary_speed = 0.0, flow = 0.0;
    bool operator==(const Piece&) const = default;
  } piece_;
};

}  // namespace

ExactRun drill_exactly(const scenario::Scenario& scenario, double tolerance,
                       const std::vector<AskedTime>& asked) {
  return ExactDriller(scenario, tolerance, asked).drill_all();
}

}  // namespace dullcast::testing
