#pragma once

#include "engine/base/dimension.hpp"
#include "models/common/constants.hpp"

/// What the uncertain numbers of records may be (number_fields). Ends lie far past any material and any
/// setting that somebody tries to see what it does, and near enough that a run still comes to its end: at
/// 1e-300 steps shrink to nothing, or a solution over- or underflows. They are the ends of what is drawn too,
/// so far out that the library's own spreads are not cut. What materials reach is from memory [mem] where no
/// source is named.
namespace dullcast::scenario::number_range {

inline constexpr double degree = pi / 180.0;

// Materials. Fresh mud yields at some 10 Pa; the strongest rocks are crushed at about 0.5 GPa, diamond at
// 100.
inline constexpr base::Range rock_strength{10.0, 1e11, true, "from 10 Pa to 100 GPa"};
inline constexpr base::Range stone_strength{0.0, 1e11, true, "0 or more, up to 100 GPa"};
// From jelly to some eight times diamond, which has about 1,100 GPa.
inline constexpr base::Range modulus{1e3, 1e13, true, "from 1 kPa to 10000 GPa"};
// From damp sand to several times what a flawless diamond would bear, 100 to 200 GPa.
inline constexpr base::Range strength{1e4, 1e12, true, "from 0.01 MPa to 1000 GPa"};
// Still air has 0.025, pure diamond 2000 to 3000.
inline constexpr base::Range conductivity{1e-3, 1e4, true, "from 0.001 to 10000 W/(m K)"};
// From foam to past osmium, 22600.
inline constexpr base::Range solid_density{10.0, 3e4, true, "from 10 to 30000 kg/m3"};
// From below hydrogen at one atmosphere, 0.085, to past any metal that melts.
inline constexpr base::Range fluid_density{0.01, 3e4, true, "from 0.01 to 30000 kg/m3"};
// Lead and uranium have 120 to 130, water 4200, hydrogen 14300.
inline constexpr base::Range heat_capacity{10.0, 3e4, true, "from 10 to 30000 J/(kg K)"};
// The thinnest vapours have 0.007 cP, honey 10000, pitch more than anybody pumps.
inline constexpr base::Range viscosity{1e-6, 1e3, true, "from 0.001 to 1000000 cP"};
inline constexpr base::Range friction_angle{0.0, 80.0 * degree, true, "from 0 to 80 deg"};
inline constexpr base::Range poisson{0.0, 0.5, true, "from 0 to 0.5"};
inline constexpr base::Range abrasivity{0.0, 10.0, true, "from 0 to 10"};
inline constexpr base::Range strength_ratio{0.2, 5.0, true, "from 0.2 to 5"};
inline constexpr base::Range inclusion{0.0, 0.9, true, "from 0 to 0.9 of the rock's volume"};
inline constexpr base::Range inclusion_size{0.0, 5.0, true, "from 0 to 5 m"};
// Over a reference: from a millionth of it to a million times as much.
inline constexpr base::Range resistance{1e-6, 1e6, true, "from 1e-6 to 1e6"};
inline constexpr base::Range lot_share{1e-3, 3.0, true, "from 0.001 to 3; 1 is sound"};
inline constexpr base::Range spread{0.0, 2.0, true, "from 0 to 2"};
// Over the bit's radius, squared or cubed; a few for any bit.
inline constexpr base::Range bodily{1e-3, 1e3, true, "from 0.001 to 1000"};

// Shares of which none at all would be a division by zero.
inline constexpr base::Range some{1e-3, 1.0, true, "from 0.001 to 1"};
// Of the bottom's heat capacity a few per cent are left at most; drawn down to a millionth without a cut.
inline constexpr base::Range dry_share{1e-6, 1.0, true, "from 1e-6 to 1"};
inline constexpr base::Range factor{1e-3, 1e3, true, "from 0.001 to 1000"};

// Cutting.
inline constexpr base::Range psi{-20.0 * degree, 60.0 * degree, true, "from -20 to 60 deg"};
inline constexpr base::Range psi_slope{0.0, 3.0, true, "from 0 to 3"};
inline constexpr base::Range bearing_ratio{1.0, 20.0, true, "from 1 to 20"};
inline constexpr base::Range friction{0.0, 2.0, true, "from 0 to 2"};
inline constexpr base::Range rate_exponent{0.0, 0.5, true, "from 0 to 0.5"};
inline constexpr base::Range rate_speed{1e-6, 1e3, true, "from 1e-6 to 1000 m/s"};
// A diamond is ground no sharper than some tens of nanometres.
inline constexpr base::Range edge_radius{1e-8, 1e-3, true, "from 10 nm to 1 mm"};
inline constexpr base::Range land{0.0, 1e-2, true, "from 0 to 10 mm"};
inline constexpr base::Range edge_width{1e-6, 5e-3, true, "from 0.001 to 5 mm"};
inline constexpr base::Range bevel_angle{1.0 * degree, 90.0 * degree, true, "from 1 to 90 deg"};
inline constexpr base::Range rake{0.0, 60.0 * degree, true, "from 0 to 60 deg"};
inline constexpr base::Range unevenness{0.0, 1.0, true, "0 or more, up to 1 m"};

// Wear. Chalk on a slate loses less than this.
inline constexpr base::Range abrasion{0.0, 1e-9, true, "0 or more, up to 1 mm3/(N m)"};
inline constexpr base::Range exponent{0.0, 6.0, true, "from 0 to 6"};
inline constexpr base::Range cutting_share{0.0, 1e5, true, "0 or more, up to 100000"};
inline constexpr base::Range ratio{1.0, 1e6, true, "from 1 to 1000000"};
inline constexpr base::Range erosion{0.0, 1.0, true, "0 or more, up to 1 m/s"};
// Wear that grew e-fold within a kelvin would stop a run before it began.
inline constexpr base::Range acceleration_scale{5.0, 1e4, true, "from 5 to 10000 K"};
inline constexpr base::Range hot{273.15, 2500.0, true, "from 0 to 2200 degC"};
// A diamond that lasts longer than a bit is kept does not burn.
inline constexpr base::Range damage_time{1e-3, 1e9, true, "from 0.001 to 1e9 s, some 30 years"};

// Heat. A tenth of a millimetre of air passes on 250 W/(m2 K), a micrometre of copper 4e8.
inline constexpr base::Range conductance{1.0, 1e9, true, "from 1 to 1e9 W/(m2 K)"};
inline constexpr base::Range conductance_or_none{0.0, 1e9, true, "0 or more, up to 1e9 W/(m2 K)"};
inline constexpr base::Range edge_factor{0.1, 10.0, true, "from 0.1 to 10"};
inline constexpr base::Range skin{1e-4, 0.1, true, "from 0.1 mm to 100 mm"};
inline constexpr base::Range settling{1e-6, 3600.0, true, "from 1e-6 to 3600 s"};
inline constexpr base::Range water_time{1e-3, 86400.0, true, "from 0.001 to 86400 s"};
inline constexpr base::Range surface_factor{1e-4, 1.0, true, "from 0.0001 to 1"};
inline constexpr base::Range turns{1e-3, 1e6, true, "from 0.001 to 1000000"};
inline constexpr base::Range band{1e-4, 100.0, true, "from 0.1 mm to 100 m"};

// Breaking. Rock and diamond are struck at up to 6e7 kg/(m2 s), air at 410.
inline constexpr base::Range impedance{100.0, 1e9, true, "from 100 to 1e9 kg/(m2 s)"};
inline constexpr base::Range jolts{0.0, 1e6, true, "0 or more, up to 1e6 1/m"};
inline constexpr base::Range weibull{1.0, 100.0, true, "from 1 to 100"};
inline constexpr base::Range chip_size{0.0, 10.0, true, "from 0 to 10"};
inline constexpr base::Range undulation{1e-6, 100.0, true, "from 0.001 mm to 100 m"};
// Solids stretch by 1e-6 to 1e-4 a kelvin.
inline constexpr base::Range expansion{0.0, 1e-3, true, "0 or more, up to 0.001 1/K"};
inline constexpr base::Range mismatch{0.0, 1e9, true, "0 or more, up to 1 GPa/K"};

// Cuttings and the body.
inline constexpr base::Range packed{0.1, 0.9, true, "from 0.1 to 0.9"};
inline constexpr base::Range height{1e-3, 10.0, true, "from 0.001 to 10 bit diameters"};
inline constexpr base::Range burying{1e-3, 10.0, true, "from 0.001 to 10 cutter diameters"};
inline constexpr base::Range grain{1e-6, 10e-3, true, "from 0.001 to 10 mm"};
inline constexpr base::Range seating{1e-7, 0.01, true, "from 0.0001 to 10 mm"};

}  // namespace dullcast::scenario::number_range
