#include "engine/shop/rig_work.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/analysis/drawn_hole.hpp"

namespace dullcast::shop {
namespace {

/// s before a hole's booked start from which a bit stays on site for it; sooner it is of more use in the shop
/// [asm].
constexpr double kept_on_site = 7.0 * 86400.0;

}  // namespace

using storage::BitPlace;

RigWork::RigWork(FutureState& future, FutureDrill& drill, BitRack& rack, std::size_t rig, SentBack sent_back)
    : future_(future),
      drill_(drill),
      rack_(rack),
      rig_(future.plan.rigs[rig]),
      number_(rig),
      sent_back_(std::move(sent_back)) {
  for (std::size_t h = 0; h < future.plan.holes.size(); ++h) {
    if (future.plan.holes[h].rig == rig) holes_.push_back({h, false, {}});
  }
}

void RigWork::has(std::size_t bit) {
  on_site_.push_back(bit);
  rack_.went_to(bit, number_);
  future_.place(bit, BitPlace::at_rig);
}

void RigWork::go_on() {
  if (!done()) secure(next_);
  send_back_what_is_not_wanted();
  try_begin();
}

/// Whether a bit on site is kept for a hole, or goes back to the shop in the meantime.
bool RigWork::worth_keeping_for(std::size_t hole) const {
  return future_.plan.holes[hole].booked - future_.loop.now() < kept_on_site;
}

/// Gives a hole that is to go on one of the bits on site, be it put by for a later one. False: none suits.
bool RigWork::take_on_site(std::size_t k) {
  Hole& hole = holes_[k];
  for (const std::size_t bit : on_site_) {
    if (!rack_.suits(bit, hole.number)) continue;
    const auto taken =
        std::find_if(holes_.begin(), holes_.end(), [&](const Hole& other) { return other.bit == bit; });
    if (taken != holes_.end() && taken < holes_.begin() + static_cast<std::ptrdiff_t>(k)) continue;
    hole.bit = bit;
    rack_.served(hole.number, true);
    if (taken != holes_.end()) {
      taken->bit.reset();
      taken->asked = false;
      rack_.served(taken->number, false);
      secure(static_cast<std::size_t>(taken - holes_.begin()));
    }
    return true;
  }
  return false;
}

/// Sees to it that hole k has a bit: one on site, or one that is asked for in time. While the bit in the hole
/// may do for the next one too, nobody asks.
void RigWork::secure(std::size_t k) {
  Hole& hole = holes_[k];
  if (hole.asked || hole.bit) return;
  if (worth_keeping_for(hole.number)) {
    if (take_on_site(k)) return;
    if (in_hole_ && !future_.due[*in_hole_] && rack_.suits(*in_hole_, hole.number)) return;
  }
  hole.asked = true;
  future_.loop.at(future_.plan.holes[hole.number].booked - rig_.asks_ahead, [this, k] {
    rack_.ask(holes_[k].number, [this](std::size_t bit) {
      future_.place(bit, BitPlace::on_the_road);
      rack_.went_to(bit, number_);
      future_.loop.at(future_.loop.now() + rig_.travel, [this, bit] { arrives(bit); });
    });
  });
}

/// A bit that was asked for goes to the first hole that waits for one: not always the one it was asked for.
void RigWork::arrives(std::size_t bit) {
  future_.place(bit, BitPlace::at_rig);
  on_site_.push_back(bit);
  for (std::size_t k = next_; k < holes_.size(); ++k) {
    if (!holes_[k].asked || holes_[k].bit || !rack_.suits(bit, holes_[k].number)) continue;
    holes_[k].bit = bit;
    break;
  }
  send_back_what_is_not_wanted();
  try_begin();
}

/// Counts what the rig has stood for want of a bit: from when it could have gone on until now.
void RigWork::count_standing() {
  FutureState& f = future_;
  const BookedHole& booked = f.plan.holes[holes_[next_].number];
  HoleLog& log = f.log.holes[holes_[next_].number];
  const bool first = std::isnan(from_);
  const double stood = rig_.open.work_between(first ? std::max(booked.booked, free_) : free_, f.loop.now());
  log.late += stood;
  f.log.rigs_waiting += stood * booked.scenario.costs.rig_per_second;
  if (first) log.begins_late = stood > late_limit;
}

void RigWork::try_begin() {
  if (in_hole_ || waits_to_begin_ || done() || !holes_[next_].bit) return;
  const std::size_t bit = *holes_[next_].bit;
  const double booked = std::isnan(from_) ? future_.plan.holes[holes_[next_].number].booked : free_;
  count_standing();
  waits_to_begin_ = true;
  future_.loop.at(rig_.open.next_open(std::max(booked, future_.loop.now())), [this, bit] {
    waits_to_begin_ = false;
    drill(bit, from_);
  });
}

void RigWork::close() {
  if (!in_hole_ && !waits_to_begin_ && !done() && !holes_[next_].bit) count_standing();
}

void RigWork::drill(std::size_t bit, double from) {
  FutureState& f = future_;
  const std::size_t hole = holes_[next_].number;
  HoleLog& log = f.log.holes[hole];
  if (!log.bit) {
    log.bit = bit;
    log.begun = f.loop.now();
  }
  std::erase(on_site_, bit);
  in_hole_ = bit;
  f.place(bit, BitPlace::drilling);
  const HoleDrilled& drilled = drill_.drill(f.lives[bit], hole, from);
  const Pull pull{bit, hole};
  const bool pulled = std::find(f.trial.pulls.begin(), f.trial.pulls.end(), pull) != f.trial.pulls.end();
  if (pulled && drilled.due.empty()) falls_due(bit);
  if (!drilled.due.empty())
    f.loop.at(rig_.open.done(f.loop.now(), drilled.due_seconds), [this, bit] { falls_due(bit); });
  else if (next_ + 1 < holes_.size())
    secure(next_ + 1);
  f.loop.at(rig_.open.done(f.loop.now(), drilled.seconds),
            [this, bit, hole, &drilled] { comes_out(bit, hole, drilled); });
}

void RigWork::falls_due(std::size_t bit) {
  future_.due[bit] = true;
  if (next_ + 1 < holes_.size()) secure(next_ + 1);
}

void RigWork::comes_out(std::size_t bit, std::size_t hole, const HoleDrilled& drilled) {
  FutureState& f = future_;
  const Instant now = f.loop.now();
  HoleLog& log = f.log.holes[hole];
  f.log.metres[bit] += drilled.metres;
  f.log.drilled.push_back({bit, hole});
  in_hole_.reset();
  free_ = now;
  if (f.due[bit] || !drilled.due.empty()) {
    f.due[bit] = true;
    f.blade_sheared[bit] = drilled.blade_sheared;
    log.falls_due = log.falls_due || !drilled.due.empty();
    f.log.out.push_back(
        {bit, hole, now, drilled.due.empty() ? "pulled" : drilled.due, f.repair_of(bit).kind});
    send_back(bit);
  } else {
    on_site_.push_back(bit);
    f.place(bit, BitPlace::at_rig);
  }
  if (drilled.finished || log.fetched == analysis::most_fetched) {
    if (drilled.finished) log.finished = now;
    from_ = std::numeric_limits<double>::quiet_NaN();
    holes_[next_++].bit.reset();  // what drilled it is free for the next one
  } else {
    // The rest is for another bit, which is asked for at once.
    ++log.fetched;
    from_ = drilled.depth;
    holes_[next_].bit.reset();
    holes_[next_].asked = false;
    rack_.served(hole, false);
  }
  go_on();
}

void RigWork::send_back(std::size_t bit) {
  future_.place(bit, BitPlace::on_the_road);
  future_.loop.at(future_.loop.now() + rig_.travel, [this, bit] { sent_back_(bit); });
}

void RigWork::send_back_what_is_not_wanted() {
  for (std::size_t i = 0; i < on_site_.size();) {
    const std::size_t bit = on_site_[i];
    bool wanted = false;
    for (std::size_t k = next_; k < holes_.size(); ++k) {
      const Hole& hole = holes_[k];
      wanted = wanted || hole.bit == bit ||
               (!hole.asked && !hole.bit && worth_keeping_for(hole.number) && rack_.suits(bit, hole.number));
    }
    if (wanted) {
      ++i;
      continue;
    }
    on_site_.erase(on_site_.begin() + static_cast<std::ptrdiff_t>(i));
    send_back(bit);
  }
}

}  // namespace dullcast::shop
