#include "models/cutting/bit_forces.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "models/geometry/outline.hpp"

namespace dullcast::cutting {
namespace {

/// Where the blades' limit cannot have come down to the depth of cut since it was found, an old value serves,
/// and the answer (no blade bears) is the same to the last bit.
bool rubbing_is_far(const ForceMemory& memory, const ForceDemand& demand) {
  // At a limit of none the blades bear, and the least wear may free them.
  if (!memory.rubbing_known || !(memory.rubbing.depth_of_cut > 0.0)) return false;
  const double worn = std::max((demand.worn_height - memory.rubbing_worn).abs().maxCoeff(),
                               std::abs(demand.lost_steel - memory.rubbing_steel));
  return memory.balance.depth_of_cut + rubbing_limit_falls_by * worn < memory.rubbing.depth_of_cut;
}

void find_rubbing(const geometry::WornProfile& profile, const BladeSurfaces& surfaces, ForceMemory& memory) {
  if (memory.rubbing_at != profile.changes() || memory.rubbing_steel != memory.found_steel)
    memory.rubbing = rubbing_limit(profile, surfaces, memory.found_steel);
  memory.rubbing_worn = memory.found_worn;
  memory.rubbing_steel = memory.found_steel;
  memory.rubbing_at = profile.changes();
  memory.rubbing_known = true;
}

/// By how many of a tolerance's shares a contact may differ: what bears on carbide is a part of all.
constexpr double contact_shares = 10.0;

/// Whether carbide bears so nearly as it was found to that no contact is another for it.
bool contacts_stand(const ForceMemory& memory, const ForceDemand& demand, const ForceTolerance& tolerance) {
  return memory.carbide_known && tolerance.share > 0.0 &&
         (memory.by_carbide * (demand.carbide_share - memory.found_carbide).abs() <=
          contact_shares * tolerance.share)
             .all();
}

bool little_has_changed(const ForceMemory& memory, const ForceDemand& demand,
                        const ForceTolerance& tolerance) {
  const auto near = [&](double now, double found) {
    return std::abs(now - found) <= tolerance.share * std::abs(found);
  };
  return memory.found && tolerance.worn_height > 0.0 && near(demand.weight, memory.found_weight) &&
         near(demand.resistance.drilling_efficiency, memory.found_efficiency) &&
         std::abs(demand.lost_steel - memory.found_steel) <= tolerance.worn_height &&
         std::abs(demand.pad_wear - memory.found_pads) <= tolerance.worn_height &&
         ((demand.worn_height - memory.found_worn).abs() <= tolerance.worn_height).all() &&
         contacts_stand(memory, demand, tolerance);
}

/// `carbide_share`: with which the loads were found.
void remember(const ForceDemand& demand, const Eigen::ArrayXd& carbide_share, const CutterLoads& loads,
              ForceMemory& memory) {
  if (&carbide_share != &memory.found_carbide) memory.found_carbide = carbide_share;
  const auto on_carbide = loads.contact_area - loads.diamond_area;
  memory.by_carbide = (on_carbide > 0.0).select(on_carbide / (carbide_share * loads.contact_area), 0.0);
  memory.carbide_known = true;
  memory.found_weight = demand.weight;
  memory.found_efficiency = demand.resistance.drilling_efficiency;
  memory.found_pads = demand.pad_wear;
  memory.found = true;
}

/// Brings the outlines and the blades to the demand's wear, unless they are within the tolerance of it.
void outline(const ForceDemand& demand, double near, geometry::WornProfile& profile, ForceMemory& memory) {
  const bool may_stand = memory.outlined && near > 0.0;
  const bool steel_stands = may_stand && std::abs(demand.lost_steel - memory.found_steel) <= near;
  if (may_stand && ((demand.worn_height - memory.found_worn).abs() <= near).all()) {
    if (!steel_stands) memory.found_steel = demand.lost_steel;
    return;
  }
  memory.outlined = false;  // until all are
  profile.update(demand.worn_height);
  memory.found_worn = demand.worn_height;
  memory.found_steel = demand.lost_steel;
  memory.outlined = true;
}

/// Where depth of cut leads along the way that wear has gone: a straight line through the last two solutions.
double likely_depth_of_cut(const ForceMemory& memory, const Eigen::ArrayXd& worn) {
  constexpr double furthest = 4.0, most_change = 0.3;
  const ForceMemory::Solution &last = memory.last, &before = memory.before_last;
  const double plain = memory.balance.depth_of_cut;
  if (!(before.depth_of_cut > 0.0) || plain != last.depth_of_cut) return plain;
  const auto way = last.worn - before.worn;
  const double along = ((worn - last.worn) * way).sum() / way.square().sum();
  const double change = along * (last.depth_of_cut - before.depth_of_cut);
  return std::abs(along) <= furthest && std::abs(change) <= most_change * plain ? plain + change : plain;
}

/// Where the balance may be looked for, and dW/dd there.
struct Guess {
  double depth_of_cut = 0.0, slope = 0.0;  // m/rev, N/m; 0: none
};

/// The solution in the rock most like this one; of those alike the last.
const ForceMemory::Solved& in_most_alike(const ForceMemory& memory, const RockResistance& rock) {
  const ForceMemory::Solved* best = &memory.solved[memory.last_solved];
  const double cutting = rock.specific_energy / rock.drilling_efficiency;
  const auto apart = [&](const ForceMemory::Solved& one) {
    return std::max(cutting / one.cutting, one.cutting / cutting) *
           std::max(rock.contact_strength / one.contact, one.contact / rock.contact_strength);
  };
  for (const ForceMemory::Solved& one : memory.solved)
    if (one.depth_of_cut > 0.0 && apart(one) < apart(*best)) best = &one;
  return *best;
}

/// As another rock had it, cutting and contact over their strengths: what is not of the slope bore on
/// contacts.
Guess as_in_another_rock(const ForceMemory::Solved& solved, const ForceDemand& demand) {
  const RockResistance& rock = demand.resistance;
  if (!(solved.depth_of_cut > 0.0)) return {};
  const double harder = rock.specific_energy / rock.drilling_efficiency / solved.cutting;
  const double cut = solved.slope * solved.depth_of_cut;
  const double on_contacts = std::max(0.0, solved.weight - cut) * rock.contact_strength / solved.contact;
  const double plain = solved.depth_of_cut * demand.weight / (solved.weight * harder);
  const double likely = (demand.weight - on_contacts) / (solved.slope * harder);
  return {std::clamp(likely, 0.5 * plain, 2.0 * plain), solved.slope * harder};
}

void keep_solution(const ForceDemand& demand, ForceMemory& memory) {
  const Eigen::ArrayXd& worn = demand.worn_height;
  if (memory.balance.force_slope > 0.0) {
    const RockResistance& rock = demand.resistance;
    const double cutting = rock.specific_energy / rock.drilling_efficiency;
    // What clean or packed slots change is no other rock.
    constexpr double another = 0.02;
    const auto same = [&](const ForceMemory::Solved& one) {
      return std::abs(one.cutting / cutting - 1.0) < another &&
             std::abs(one.contact / rock.contact_strength - 1.0) < another;
    };
    const auto known = std::find_if(memory.solved.begin(), memory.solved.end(), same);
    if (known != memory.solved.end()) {
      memory.last_solved = static_cast<std::size_t>(known - memory.solved.begin());
    } else {
      memory.last_solved = memory.next_solved;
      memory.next_solved = (memory.next_solved + 1) % memory.solved.size();
    }
    memory.solved[memory.last_solved] = {demand.weight, memory.balance.depth_of_cut,
                                         memory.balance.force_slope, cutting, rock.contact_strength};
  }
  // Room for both, once.
  if (memory.before_last.worn.size() != worn.size()) memory.last.worn = memory.before_last.worn = worn;
  // Beside the same wear there is no way to follow.
  if (!(memory.last.depth_of_cut > 0.0) || (worn != memory.last.worn).any()) {
    std::swap(memory.last, memory.before_last);
    memory.last.worn = worn;
  }
  memory.last.depth_of_cut = memory.balance.depth_of_cut;
}

/// Off bottom nothing is cut and nothing bears. Rods are added often, so this saves the outlines' work.
bool lift_off(const BitMechanics& bit, ForceMemory& memory, BitForces& forces) {
  if (memory.lifted) return false;
  memory.balance = {};
  memory.found = false;
  memory.lifted = true;
  forces.balance = {};
  forces.rubbing = memory.rubbing;
  forces.loads.resize(forces.whole_flat.size());
  forces.whole_flat.setZero();
  forces.outer_radius = bit.unworn_reach;
  forces.stand_off.setZero();
  forces.bottom_torque = 0.0;
  return true;
}

/// Of the side force, what a cutter holds that faces it by this cosine; a leap would let bits go in circles.
double held_by(double faces) {
  const double share = std::min(faces / 0.17, 1.0);  // cosine of 80 degrees [asm]
  return share * (2.0 - share);
}

/// The side force on pads and gauge cutters; what neither reaches stays on the bottom. `pads`: share of it
/// that pads as near to the wall as these take.
void share_side_force(const BitMechanics& bit, const geometry::BitLayout& layout, double pads,
                      const Eigen::Array<bool, Eigen::Dynamic, 1>& lost, BitForces& forces) {
  double at_wall = 0.0, sum = 0.0;
  for (Eigen::Index i = 0; i < layout.count(); ++i) {
    const double faces =
        lost(i) ? 0.0 : std::max(0.0, std::cos(layout.azimuth(i) - forces.lateral.direction));
    const double near = bit.gauge_share(i) * std::exp(-forces.stand_off(i) / bit.pad_seating);
    if (faces > 0.0) at_wall = std::max(at_wall, held_by(faces) * near);
    forces.side_force(i) = faces * near;
    sum += faces * near;
  }
  forces.pad_force = pads * forces.lateral.force;
  forces.side_force *= sum > 0.0 ? (1.0 - pads) * at_wall * forces.lateral.force / sum : 0.0;
}

}  // namespace

void BitForces::resize(Eigen::Index cutters) {
  loads.resize(cutters);
  for (Eigen::ArrayXd* field : {&whole_flat, &stand_off, &tangential_force, &normal_force, &radial_force,
                                &side_force, &contact_area, &contact_width})
    field->setZero(cutters);
}

BitMechanics bit_mechanics(const geometry::BitLayout& bit, const geometry::EdgeLaw& edge,
                           double blade_thickness, double blade_friction, double pad_seating) {
  BitMechanics mechanics{force_directions(bit, edge),
                         blade_surfaces(bit),
                         blade_thickness,
                         blade_friction,
                         pad_seating,
                         gauge_cutters(bit).cast<double>(),
                         0.0};
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    mechanics.unworn_reach =
        std::max(mechanics.unworn_reach, geometry::make_outline(bit, i, 0.0).reach_outer);
  }
  return mechanics;
}

namespace {

/// Loads that go straight on to another depth of cut are wrong by a tenth of the way, as a rule: that is some
/// hundredths of the tolerance that a run is stepped at, which forces stand in proportion with.
constexpr double loads_reach = 300.0, most_reach = 0.02;

}  // namespace

bool sit_on_bottom(const BitMechanics& bit, const ForceDemand& demand, geometry::WornProfile& profile,
                   ForceMemory& memory, BitForces& forces, const ForceTolerance& tolerance) {
  if (demand.weight <= 0.0 && !demand.worn_height.isNaN().any()) return lift_off(bit, memory, forces);
  if (little_has_changed(memory, demand, tolerance)) return false;
  memory.found = memory.lifted = false;  // until all of it is
  outline(demand, tolerance.worn_height, profile, memory);
  const double most_depth_of_cut = std::min(demand.most_depth_of_cut, profile.bit().bit_radius);
  // Where outlines and contacts are those of the last look at force, that is still good: other weight, or
  // slots that clear, move the solution a little away from there.
  const bool stand = contacts_stand(memory, demand, tolerance) && memory.tried_at == profile.changes();
  const Eigen::ArrayXd& carbide_share = stand ? memory.found_carbide : demand.carbide_share;
  memory.storage.loads_follow = tolerance.share > 0.0;
  memory.storage.reach = std::min(loads_reach * tolerance.share, most_reach);
  const auto balance_now = [&] {
    // Without a tolerance nothing of another rock may matter, to the last bit.
    const Guess guess =
        stand && memory.balance.tried > 0.0 ? Guess{memory.balance.tried, memory.balance.force_slope}
        : memory.balance.depth_of_cut > 0.0 || !(tolerance.share > 0.0)
            ? Guess{likely_depth_of_cut(memory, demand.worn_height), memory.balance.force_slope}
            : as_in_another_rock(in_most_alike(memory, demand.resistance), demand);
    memory.balance = balance_weight(profile, demand.resistance, bit.directions, carbide_share, demand.weight,
                                    most_depth_of_cut,
                                    {&bit.surfaces, bit.blade_thickness, memory.found_steel, memory.rubbing},
                                    guess.depth_of_cut, guess.slope, &memory.storage,
                                    // Squared by the secants' closing in, under the share that may differ.
                                    10.0 * tolerance.share);
  };
  const bool old_limit_will_do = rubbing_is_far(memory, demand);
  if (!old_limit_will_do) find_rubbing(profile, bit.surfaces, memory);
  balance_now();
  // A softer rock or more weight may have brought the blades near after all.
  if (old_limit_will_do && !rubbing_is_far(memory, demand)) {
    find_rubbing(profile, bit.surfaces, memory);
    balance_now();
  }
  memory.tried_at = profile.changes();
  keep_solution(demand, memory);
  forces.balance = memory.balance;
  forces.rubbing = memory.rubbing;
  if (forces.balance.blade_weight > 0.0)
    forces.rubbing.contact_radius = forces.balance.blade_moment / forces.balance.blade_weight;
  // Within a tolerance the cut that the balance tried last, and found, leads to its solution's.
  const bool follow = tolerance.share > 0.0 && !forces.balance.feed_limited;
  const double found_at = follow ? forces.balance.tried : forces.balance.depth_of_cut;
  cutter_loads(profile, demand.resistance, carbide_share, found_at, forces.loads, memory.storage,
               forces.balance.depth_of_cut - found_at);
  forces.whole_flat = profile.flat_weight_total();
  forces.outer_radius = profile.outer_radius();
  for (Eigen::Index i = 0; i < forces.stand_off.size(); ++i)
    forces.stand_off(i) = std::max(0.0, forces.outer_radius - profile.reach_outer(i));
  forces.bottom_torque =
      cutter_torque(forces.loads, demand.resistance) + bit.blade_friction * forces.balance.blade_moment;
  if (tolerance.worn_height > 0.0) remember(demand, carbide_share, forces.loads, memory);
  return true;
}

void press_on_wall(const BitMechanics& bit, const geometry::BitLayout& layout, const RockResistance& rock,
                   double pad_wear, const Eigen::Array<bool, Eigen::Dynamic, 1>& lost, BitForces& forces) {
  const CutterLoads& loads = forces.loads;
  const double pressure = rock.specific_energy / rock.drilling_efficiency;
  forces.tangential_force =
      pressure * loads.cut_strength * loads.area + rock.flat_friction * loads.contact_force;
  forces.normal_force =
      bit.directions.zeta * pressure * loads.cut_strength * loads.area + loads.contact_force;
  forces.radial_force =
      bit.directions.across * pressure * loads.cut_strength * loads.area + loads.contact_across;
  forces.lateral = lateral_imbalance(layout, forces.tangential_force, forces.radial_force);
  const double clearance = pad_clearance(pad_wear, std::max(0.0, bit.unworn_reach - forces.outer_radius));
  share_side_force(bit, layout, std::exp(-std::max(0.0, clearance) / bit.pad_seating), lost, forces);
  const auto pressed = forces.side_force / (rock.contact_strength * loads.speed_strength);
  forces.contact_area = loads.contact_area.max(pressed);
  forces.contact_width =
      (forces.side_force > 0.0).select(loads.engaged_width.max(pressed.sqrt()), loads.engaged_width);
  forces.wall_torque = layout.bit_radius *
                       (bit.blade_friction * forces.pad_force + rock.flat_friction * forces.side_force.sum());
}

}  // namespace dullcast::cutting
