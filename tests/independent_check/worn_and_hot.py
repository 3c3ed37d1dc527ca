"""What follows from the forces: heat at the flat, wear, heat damage and the hazard of a chip. Written from the
equations, as bit_physics.py is."""

from math import gamma

import numpy as np

from bit_physics import acceleration


def rock_conductance(bit, rock, v, length, area):
    """Into rock sliding past, W/(m2 K): Jaeger's moving band and a stationary disc, blended as Tian & Kennedy 1994."""
    fast = 0.75 * np.sqrt(np.pi) * rock.conductivity * np.sqrt(v / (rock.diffusivity * length))
    if bit.spoil == "rock_share":
        fast = fast * 1.04
    still = 3 * np.pi * rock.conductivity / (8 * np.sqrt(area / np.pi))
    return np.sqrt(fast**2 + still**2)


def flat_heat(loads, rock, omega):
    """Friction heat of each flat, W, strip by strip: mu times the integral of v dF_c, and of the side force on it."""
    return rock.friction * omega * (loads["contact_moment"] + loads["side_moment"])


def face_heat(bit, loads, rock, omega):
    """Friction heat of each face, W: r_c eps A v times the friction on the face over the cutting force."""
    share = bit.model("chip_friction_speed_share") * (1.02 if bit.spoil == "chip_speed" else 1.0)
    return share * rock.strength * loads["harder"] * omega * loads["moment"] * bit.direction.chip_friction


def rock_rise(bit, loads, rock, omega, flat_side):
    """By how much rock meets a cutter warmer than the bottom, K: a share of the work of cutting that stays in it, less what
    it gives away; it gives no more than both contacts let through on its own side (W/K), nor than it brings."""
    share = bit.model("crushed_heat_share") * (1.03 if bit.spoil == "crushed_heat" else 1.0)
    rise = share * rock.strength * loads["harder"] / rock.heat_per_volume
    brings = share * rock.strength * loads["harder"] * omega * loads["moment"]
    chip = loads["area"] / (np.cos(bit.back_rake) * np.cos(bit.side_rake))
    touches = (chip > 1e-12) & (loads["width"] > 0)
    area, width = np.where(touches, chip, 1e-6), np.where(touches, loads["width"], 1e-3)
    v = bit.model("chip_friction_speed_share") * omega * bit.radius
    face_side = np.where(touches, area * rock_conductance(bit, rock, v, area / width, area), 0.0)
    return rise * brings / np.maximum(brings + (flat_side + face_side) * rise, 1e-300)


def implied_spot(bit, loads, rock, omega, T_flat, T_table, T_rock):
    """What the stored temperatures say of the resistance between flat and table: it over that of an isothermal disc,
    1/(4 k a_eq), from heat = (T_flat - T_table)/R + h_r A (T_flat - T_rock - rise). Also the flux into the diamond, W/m2."""
    cuts = loads["width"] > 0
    # A cutter that cuts nothing has no contact: any numbers will do there, and none is looked at.
    area, width = np.where(cuts, loads["contact_area"], 1e-6), np.where(cuts, loads["width"], 1e-3)
    h = rock_conductance(bit, rock, omega * bit.radius, area / width, area)
    into_table = flat_heat(loads, rock, omega) - h * area * (T_flat - T_rock - rock_rise(bit, loads, rock, omega, h * area))
    resistance = (T_flat - T_table) / into_table
    disc = 1 / (4 * bit.grade("table_conductivity") * np.sqrt(area / np.pi))
    return resistance / disc, into_table / area


def wear_rate(bit, loads, rock, omega, T_flat, leached, ruined, side):
    """du/dt of each cutter, m/s: w_d (sigma_c m + kappa eps A/A_d) v/cos(theta), m the mean mobilisation of the whole
    flat, of which what is not yet mobilised may be so by a force from the side (N); A the area of cut, A_d the diamond
    of the flat, or that which bears if it is more."""
    exponent = bit.model("abrasivity_exponent") + (0.01 if bit.spoil == "wear_exponent" else 0.0)
    factor = np.where(ruined, bit.model("carbide_wear_ratio"),
                      acceleration(bit, T_flat, leached, bit.model("carbide_wear_ratio")))
    # Over a path of ground and stones each wears by the load that it carries.
    scratches = (1 - rock.on_stones) * rock.abrasivity**exponent + rock.on_stones * rock.stone_abrasivity**exponent
    w = bit.model("abrasion_coefficient") * scratches * factor / bit.grade("wear_resistance")
    mobile = loads["mobilised"] / np.where(loads["flat"] > 0, loads["flat"], np.nan)
    area = np.maximum(loads["contact_area"], 1e-9)
    contact = rock.contact * loads["speed"]
    mobile = np.minimum(1.0, mobile + side / (contact * area) * (1 - mobile))
    kappa = bit.model("cutting_wear_share") * (1.02 if bit.spoil == "cutting_wear" else 1.0)
    recedes = np.maximum(loads["flat"], loads["diamond"])
    recedes = np.where(ruined, np.maximum(recedes, loads["contact_area"]), recedes)
    cutting = kappa * rock.strength * loads["harder"] * loads["area"] / np.where(recedes > 0, recedes, np.inf)
    return w * (contact * mobile + cutting) * omega * bit.radius / np.cos(bit.back_rake)


def damage_rate(bit, T_flat, flux, leached):
    """Share of a table's life used in a second. Two lives fix the Arrhenius law of cobalt-bearing diamond; the leached
    layer lasts as long at its limit as the other at 750 degC, with the same activation. The mean over the flat: what is
    leached is as bad as the worse of itself and of the diamond below it, half the layer along the flat's normal; the
    rest has its cobalt at the flat."""
    life, longer = bit.model("damage_seconds_at_750"), bit.model("damage_seconds_at_700")
    if bit.spoil == "damage":
        longer = longer * 0.97
    activation = np.log(longer / life) / (1 / 973.15 - 1 / 1023.15)
    law = lambda T, T_0: np.exp(-activation * (1 / T - 1 / T_0)) / life
    depth = bit.leach / 2 / np.sin(bit.back_rake)
    deep = T_flat - flux * depth / bit.grade("table_conductivity")
    layer = np.maximum(law(T_flat, bit.model("leached_limit")), law(deep, 1023.15))
    return leached * layer + (1 - leached) * law(T_flat, 1023.15)


def edge_stress_per_load(bit, worn):
    """sigma r_e/P' at a wedge's edge (Michell 1900; Timoshenko & Goodier) under an impact along the travel. Under a
    flat that lies on the bevel the wedge opens by theta + chi and is struck along the flat; a flat that has used the
    bevel up leaves pi/2 + theta."""
    theta, chi = bit.back_rake, np.where(bit.bevel_width > 0, bit.bevel_angle, 0.0)
    # The bevel's width is measured on the face, so a flat has used it up at that worn height. A flat, parallel to the
    # travel, first meets the bevel's other corner, on the table's side and width tan(chi) behind the face.
    width = bit.bevel_width * (np.cos(chi) if bit.spoil == "bevel_slope" else 1.0)
    flat_from = width * np.tan(chi) * np.tan(theta)
    flat = np.clip((worn - flat_from) / bit.edge_radius, 0, 1)
    flat = 3 * flat**2 - 2 * flat**3
    left = np.clip((width - worn) / (2 * bit.edge_radius), 0, 1)
    left = 3 * left**2 - 2 * left**3
    chi = chi * left
    opening = np.pi / 2 + chi + flat * theta
    alpha = opening / 2
    # From against the side to along the flat, half of whose opening is pi/4 + (theta + chi)/2.
    delta = (1 - flat) * (np.pi / 4 + theta + chi / 2) + flat * (np.pi / 4 + theta / 2 + chi / 2)
    stress = (np.sin(delta) * np.sin(alpha) / (alpha - np.sin(2 * alpha) / 2)
              - np.cos(delta) * np.cos(alpha) / (alpha + np.sin(2 * alpha) / 2))
    return np.maximum(0, stress)


def chip_rate(bit, loads, rock, omega, worn, T_edge, damage):
    """Rate of the probability of a chip of each cutter, 1/s: peaks of the load per metre, in the ground and within
    stones, and blows on entering stones, each times the Weibull probability that it breaks the edge."""
    modulus = bit.model("weibull_modulus") + (0.1 if bit.spoil == "chip_modulus" else 0.0)
    v = omega * bit.radius
    cuts = loads["cutting_width"] > 0
    width = np.where(cuts, loads["cutting_width"], 1.0)
    mean = np.where(cuts, loads["area"] / width, 0.0)
    # Linear from 20 to 700 degC, its corner at 20 rounded over 10 K: a parabola there, then a line to 700.
    warm = T_edge - 293.15
    ramp = np.where(warm < 10, np.maximum(0, warm) ** 2 / 20, warm - 5) / 675
    hot = 1 - (1 - bit.model("edge_hot_share")) * ramp
    lot = bit.run.central("lots", bit.run.scenario["bit"]["lot"], "edge_share")
    strength = (bit.grade("edge_strength") * lot * np.maximum(0.1, hot)
                * (1 - (1 - bit.model("edge_damaged_share")) * np.clip(damage, 0, 1)))
    share, size, hard = rock.stone_share, rock.stone_size, rock.stone_strength

    def chance(depth, q, impedance, scatters=True):
        """That a peak over `depth` breaks the edge: loads scatter about their mean by Weibull's law of shape k, so the
        exponent's mean is the modulus-th moment of that over the mean to the modulus."""
        variation = min(1.0, bit.model("load_variation") * q / (q + bit.model("brittle_strength")))
        k = variation ** -1.086
        factor = gamma(1 + modulus / k) / gamma(1 + 1 / k) ** modulus if scatters else 1.0
        at_edge = 1 / np.sqrt(1 + np.pi**2 / 4 * depth / bit.edge_radius)
        stress = (q * loads["harder"] + impedance * v) * depth * at_edge / bit.edge_radius * edge_stress_per_load(bit, worn)
        return -np.expm1(-np.minimum(700, factor * (stress / strength) ** modulus))

    uneven = bit.model("bottom_unevenness")
    with np.errstate(divide="ignore"):
        peak = np.where(cuts, mean + 1 / (1 / uneven + 1 / (4 * mean)), 0.0)
    per_metre = (1 - share) * bit.model("roughness_impacts") * chance(peak, rock.between, rock.impedance)
    if share > 0:
        stiff = bit.model("impact_impedance")
        stand_out = bit.model("stone_protrusion") * size * max(0.0, 1 - rock.between / hard)
        met = share / (np.pi / 6 * size**3) * (width * mean + size * (width + mean) + np.pi / 4 * size**2)
        half = size / 2
        deep = mean + stand_out
        deep = deep * half / (deep**4 + half**4) ** 0.25
        per_metre = per_metre + (share * bit.model("roughness_impacts") * chance(peak, hard, stiff)
                                 + met * chance(deep, hard, stiff, scatters=False))
    return np.where(cuts, v * per_metre, 0.0)
