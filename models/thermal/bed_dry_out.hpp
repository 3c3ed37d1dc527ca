#pragma once

#include "models/materials/saturated_water.hpp"

namespace dullcast::thermal {

/// Greatest heat flux that a deep bed of grains under standing water carries off as steam, W/m2: more, and
/// the water that must come down against the steam no longer reaches its bottom. The balance of weight
/// against the drag of both streams in the bed (Ergun's), at the saturation that lets most through, of
/// Lipinski, Nucl. Technol. 65, 1984 [pub, from memory], in its form without depth:
///   (rho_l - rho_v) g = 150 (1 - e)^2/(e^3 d^2) K_1 j + 1.75 (1 - e)/(e^3 d) K_2 j^2,  q = h_fg j,
///   K_1 = (nu_v^1/4 + nu_l^1/4)^4   relative permeabilities s^3, (1 - s)^3,
///   K_2 = (rho_v^-1/6 + rho_l^-1/6)^6   passabilities s^5, (1 - s)^5 (Reed 1982 [pub, from memory]).
/// Each K is least at a saturation of its own, so that q is a little high where both count. Left out: the
/// pull of surface tension, which helps beds shallower than some centimetres, and what subcooled water takes
/// up more (at most a fifth). Water at 1 atm, e = 0.4: 34, 91 and 290 kW/m2 for 0.3, 0.5 and 1 mm; 3 mm give
/// 0.9 MW/m2, as measured on beds flooded from above (Hofmann 1984 [pub, from memory]). grain (m) at least 1
/// micrometre, void_share within 0.05 to 0.95. Total.
double bed_dry_out_flux(const materials::SaturatedWater& water, double grain, double void_share);

}  // namespace dullcast::thermal
