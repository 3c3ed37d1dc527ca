#pragma once

/// When something is worth telling, and how long a driller waits: choices of this program, not physics. All
/// [asm].
namespace dullcast::simulation::policy {

inline constexpr double patience =
    300.0;  // s after a mishap before a bit that stands still is called stopped
inline constexpr double afterwards_share = 2.0;  // of an upset's length after it in which every step is kept
inline constexpr double packed_from = 0.9,
                        clear_from = 0.5;  // packing at which slots are told packed and clear
inline constexpr double dry_from = 0.02;   // water at the bottom over its full amount at which it is told dry
inline constexpr double harder_by = 1.2;   // strength over that of the rock above that strikes edges
inline constexpr double quenching_flow = 2.0;   // flow over that before from which a change quenches
inline constexpr double telling_quench = 50.0;  // K of drop that is worth telling

}  // namespace dullcast::simulation::policy
