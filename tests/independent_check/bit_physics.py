"""The physics of one bit at one time, written from its equations and not from dullcast's sources.

SI units, angles in radians, one array entry per cutter. Where the engine goes through cutters in the order in which
they pass and integrates piece by piece, this takes the maximum over all cutters as it is defined, at very many radii,
and sums: brute force. Outlines are exact ellipses or, like the engine's, straight between nodes some half a millimetre
apart: the first says what is true, the second whether the engine does what it says it does.
`spoil` names one number to get wrong on purpose (spoils.py), so that the test can show that it would notice.
"""

import numpy as np

from raked_face import CuttingDirection, FaceOutline


class Bit:
    """Geometry and material numbers of one run, from its result file."""

    def __init__(self, run, spoil=None, step=2e-6):
        self.run, self.spoil, self.step = run, spoil, step
        for name in ("radius", "azimuth", "depth", "back_rake", "side_rake", "profile_angle", "exposure"):
            setattr(self, name, run.bit(name))
        self.blade = run.bit("blade").astype(int)
        # Each cutter's shape is that of its kind; what the group bit says beside the kinds is the first one's.
        self.kind = run.bit("kind").astype(int) - 1
        self.grades = run.texts("bit/kinds", "grade")
        self.a, self.length = self.of_kind("cutter_radius"), self.of_kind("cutter_length")
        self.table, self.leach = self.of_kind("table_thickness"), self.of_kind("leach_depth")
        self.bevel_width, self.bevel_angle = self.of_kind("bevel_width"), self.of_kind("bevel_angle")
        self.edge_radius = self.of_kind("edge_radius")
        self.count = len(self.radius)
        self.blade_thickness = float(run.bit("blade_thickness"))
        self.outlines = [FaceOutline(self, i, spoil) for i in range(self.count)]
        # Gauge cutters come within a millimetre of the bit's radius when new.
        reach = np.array([outline.ends(0.0)[1] for outline in self.outlines])
        self.at_gauge = reach >= float(run.bit("bit_radius")) - 1e-3

        model = self.model
        theta, reference = self.back_rake, np.radians(15.0)
        self.psi = np.maximum(model("psi_least"), model("psi_at_reference") - model("psi_slope") * (theta - reference))
        if spoil == "psi":
            self.psi = self.psi + np.radians(1.0)
        self.direction = CuttingDirection(theta, self.side_rake, self.psi, spoil)
        c, s = np.cos(self.profile_angle), np.sin(self.profile_angle)
        # Of the cutting force, up the axis (a cutter does not pull the bit down) and inward across it.
        self.up = self.direction.normal * c - self.direction.sideways * s
        if spoil != "side_rake_pull":
            self.up = np.maximum(0.0, self.up)
        self.inward = self.direction.normal * s + self.direction.sideways * c
        # What is l long under a face without side rake is this much longer along the travel of one with it.
        self.longer = np.ones(self.count) if spoil == "side_rake_lengths" else 1 / np.cos(self.side_rake)
        # The land goes by the bevel's length along the travel, the slope over a width stated on the face; that of the
        # fit: 45 deg, 0.4 mm, at 15 deg of back rake.
        bevelled = (self.bevel_width > 0) & (self.bevel_angle > 0)
        bevel = (model("land_reference") * self.bevel_width / 0.4e-3 * np.sin(theta + self.bevel_angle)
                 / np.sin(reference + np.radians(45.0)) * np.cos(np.radians(45.0)) / np.cos(self.bevel_angle))
        self.land = (self.edge_radius + np.where(bevelled, bevel, 0.0)) * self.longer
        # The engine's nodes lie as dense as the smallest cutter asks for.
        self.apart = self.a.min() / 16
        # Radii of the sums: nodes every few micrometres from the axis past the outermost reach.
        self.nodes = np.arange(0.0, np.max(self.radius + self.a) + step, step)

    def model(self, name):
        return self.run.central("models", name)

    def of_kind(self, name):
        """A number of each cutter's kind."""
        spoils = {"cutter_radius": "kind_radius", "table_thickness": "kind_table", "cutter_length": "kind_length",
                  "leach_depth": "kind_leach", "bevel_width": "kind_bevel_width", "bevel_angle": "kind_bevel_angle"}
        kinds = self.run.group("bit/kinds", name)
        return kinds[0 * self.kind] if self.spoil == spoils.get(name, "none") else kinds[self.kind]

    def grade(self, name):
        """A number of each cutter's grade."""
        spoils = {"wear_resistance": "kind_resistance", "edge_strength": "kind_strength",
                  "table_conductivity": "kind_conductivity"}
        kinds = np.array([self.run.central("grades", grade, name) for grade in self.grades])
        return kinds[0 * self.kind] if self.spoil == spoils.get(name, "none") else kinds[self.kind]


class Rock:
    """What one layer opposes to the bit; `efficiency` is what packed slots leave of e."""

    def __init__(self, bit, layer, efficiency=1.0):
        record = bit.run.scenario["column"]["layers"][layer]
        rock = lambda name: bit.run.central("rocks", record["rock"], name)
        self.name = record["rock"]
        pressure = 0.0 if bit.spoil == "excess_pressure" else record["excess_pressure"]
        sine = np.sin(rock("friction_angle"))
        confined = pressure * (1 + sine) / (1 - sine)
        self.between = rock("unconfined_strength") + confined  # of the ground that holds the stones
        self.stone_share, self.stone_size = rock("inclusion_share"), rock("inclusion_size")
        self.stone_strength = rock("inclusion_strength") + confined
        # Every cutter is in stone for their share of its path, at the same depth of cut.
        self.strength = (1 - self.stone_share) * self.between + self.stone_share * self.stone_strength
        self.on_stones = self.stone_share * self.stone_strength / self.strength  # share of the load
        self.contact = rock("contact_strength_ratio") * self.strength
        if bit.spoil == "contact_strength":
            self.contact *= 1.02
        self.mobilisation = (4 * (1 - rock("poissons_ratio") ** 2) * rock("contact_strength_ratio") * self.between
                             / rock("youngs_modulus"))
        if bit.spoil == "contact_strength":
            self.mobilisation *= 1.02
        if bit.spoil == "mobilisation":
            self.mobilisation *= 1.05
        self.exponent = bit.model("rate_exponent") + (0.002 if bit.spoil == "rate" else 0.0)
        self.rate_speed = bit.model("rate_speed")
        self.rate_depth = bit.model("rate_depth") * (1.03 if bit.spoil == "rate_depth" else 1.0)
        self.friction = bit.model("flat_friction") * (1.02 if bit.spoil == "friction" else 1.0)
        self.efficiency = bit.model("drilling_efficiency") * efficiency
        self.bearing = bit.model("blade_bearing_ratio") * self.strength
        self.unconfined = rock("unconfined_strength")
        self.abrasivity, self.stone_abrasivity = rock("cerchar_abrasivity"), rock("inclusion_abrasivity")
        self.impedance = np.sqrt(rock("density") * rock("youngs_modulus"))
        self.conductivity = rock("conductivity")
        self.heat_per_volume = rock("density") * rock("heat_capacity")
        self.diffusivity = rock("conductivity") / (rock("density") * rock("heat_capacity"))


def efficiency_left(bit, layer, solids, flow, plug_height):
    """What buried cutters and a plug over the bit leave of the drilling efficiency. Cutters are buried as slots pack,
    by a cubic step of the solids fraction from 0.4 to 0.9 of the packed one, and by what has settled: of all solids the
    share 1 - step((1 - w/u)/T_s), w the slip velocity of the bed's grains (Ferguson & Church 2004) and u the water's
    velocity between the solids; spread over the hole at the packed fraction, a bed that buries by a cubic step of its
    depth over the cutters' mean diameter: one bed round all of them."""
    step = lambda x: np.clip(x, 0, 1) ** 2 * (3 - 2 * np.clip(x, 0, 1))
    packed, R = bit.model("packed_fraction"), float(bit.run.bit("bit_radius"))
    packing = step((solids / packed - 0.4) / 0.5)
    hole = np.pi * R**2
    own = float(bit.run.bit("junk_slot_share"))
    slots = hole * (own if own > 0 else bit.model("junk_slot_share"))
    fluid = lambda name: bit.run.central("fluids", bit.run.scenario["fluid"]["name"], name)
    density = bit.run.central("rocks", bit.run.scenario["column"]["layers"][layer]["rock"], "density")
    weight = max(0.0, density / fluid("density") - 1) * 9.80665
    D = bit.model("bed_grain")
    slip = weight * D**2 / (18 * fluid("viscosity") / fluid("density") + np.sqrt(0.75 * weight * D**3))
    u = flow / (slots * (1 - solids))
    transport = 1 - slip / u if u > slip else 0.0
    settled = 1 - step(transport / bit.model("suspending_transport"))
    if bit.spoil == "settling":
        settled = 0.0
    depth = settled * solids * slots * bit.model("slot_height") * 2 * R / (packed * hole)
    covered = step(depth / (bit.model("burying_height") * 2 * np.mean(bit.a)))
    buried = 1 - (1 - covered) * (1 - packing)
    plug = 1 / (1 + (plug_height / (5 * 2 * R)) ** 2)
    return (1 - buried * (1 - bit.model("packed_share"))) * plug


def carbide_share(bit, T, leached, ruined):
    """w_d/w_c, or what it takes at least: how much pressure carbide takes behind diamond at T."""
    ratio = bit.model("carbide_wear_ratio") * (1.1 if bit.spoil == "carbide_ratio" else 1.0)
    least = bit.model("carbide_load_share") * (1.1 if bit.spoil == "carbide_share" else 1.0)
    return np.where(ruined, 1.0, np.maximum(acceleration(bit, T, leached, ratio) / ratio, least))


def acceleration(bit, T, leached, most):
    """Of a flat of which a share is leached: both parts recede at one rate under the pressures that carry the mean."""
    start = bit.model("acceleration_temperature") + (2.0 if bit.spoil == "acceleration" else 0.0)
    faster = lambda start: np.minimum(np.exp(np.maximum(0.0, T - start) / bit.model("acceleration_scale")), most)
    by_cobalt, by_leached = faster(start), faster(bit.model("leached_acceleration_temperature"))
    return 1 / (leached / by_leached + (1 - leached) / by_cobalt)


def leached_share(bit, worn):
    """Share of each flat's diamond within the leached depth of the face, by adding up chords behind the face."""
    steps = 20000
    share = np.where(bit.leach > 0, 1.0, 0.0)
    for i in np.flatnonzero(bit.leach > 0):
        slope = np.tan(bit.back_rake[i])
        # Depths behind the face at which the flat still exists, to the middle of each step.
        reach = min(bit.table[i], worn[i] / slope) if slope > 0 else bit.table[i]
        behind = (np.arange(steps) + 0.5) / steps * reach
        under = worn[i] - behind * slope
        chord = np.sqrt(np.maximum(0, under * (2 * bit.a[i] - under)))
        if chord.sum() > 0:
            leach = bit.leach[i] * (1.03 if bit.spoil == "leached_share" else 1.0)
            share[i] = chord[behind < leach].sum() / chord.sum()
    return share


class WornBit:
    """The worn outlines on every radius, and what a depth of cut does with them. `straight`: outlines straight between
    nodes a sixteenth of the smallest cutter's radius apart (narrower by (cos gamma)^1.5 where the profile stands at
    gamma) and at all ends of outlines and flats; else the ellipses themselves."""

    def __init__(self, bit, worn, straight):
        self.bit, self.worn = bit, worn
        n = bit.count
        # A flat that has not formed yet counts as one of the edge's radius, where the mean over the flat is taken.
        self.formed = np.maximum(worn, bit.edge_radius)
        self.ends = [self._ends(i) for i in range(n)]
        # An ellipse stands upright at its ends: radii crowd there.
        crowd = bit.step * np.linspace(0, 1, 17) ** 2
        knots = self._knots() if straight else np.empty(0)
        near = [knots] + [end + side * crowd for ends in self.ends for end in ends for side in (-1, 1)]
        r = np.unique(np.concatenate([bit.nodes] + near))
        self.nodes = r = r[(r >= 0) & (np.diff(r, prepend=-1) > 1e-12)]
        self.first, self.last, self.z, x = [], [], [], []
        for i in range(n):
            lo, hi = np.searchsorted(r, self.ends[i][0] - 1e-12), np.searchsorted(r, self.ends[i][1] + 1e-12)
            self.first.append(lo), self.last.append(hi)
            z_i, x_i = bit.outlines[i].lowest(r[lo:hi], worn[i])
            if straight:
                inner, outer = max(0.0, self.ends[i][0]), self.ends[i][1]
                own = np.concatenate([[inner], knots[(knots > inner) & (knots < outer)], [outer]])
                at_knots, x_knots = bit.outlines[i].lowest(own, worn[i])
                z_i = np.interp(r[lo:hi], own, at_knots)
                middle = 0.5 * (r[lo:hi - 1] + r[lo + 1:hi])
                piece = np.clip(np.searchsorted(own, middle) - 1, 0, len(own) - 2)
                x_i = 0.5 * (x_knots[1:] + x_knots[:-1])[piece]
            else:
                x_i = 0.5 * (x_i[1:] + x_i[:-1])
            self.z.append(z_i), x.append(x_i)
        # Worn depth in the face between two nodes; with straight outlines the one in the middle of a piece holds for
        # the whole of it.
        if bit.spoil == "worn_across":
            x = [x_i * np.cos(side) for x_i, side in zip(x, bit.side_rake)]
        sag = [a - np.sqrt(np.maximum(0.0, a**2 - x_i**2)) for a, x_i in zip(bit.a, x)]
        self.s = [np.maximum(0.0, worn[i] - sag[i]) for i in range(n)]
        self.s_formed = [np.maximum(0.0, self.formed[i] - sag[i]) for i in range(n)]
        order = np.arange(n)
        self.lead = np.empty((n, n))  # dphi(m -> i)/(2 pi), [m, i]
        for i in range(n):
            gap = bit.azimuth - bit.azimuth[i]
            if bit.spoil == "lead_angle":
                gap = -gap
            turn = np.mod(gap, 2 * np.pi) / (2 * np.pi)
            turn[(gap == 0) & (order > i)] = 1.0
            turn[i] = 1.0
            self.lead[:, i] = turn

    def _ends(self, i):
        """Radii where the outline of cutter i ends, and where its flat does."""
        outline = self.bit.outlines[i]
        return outline.ends(self.worn[i]) + outline.flat_ends(self.formed[i])

    def _knots(self):
        bit = self.bit
        at, base = bit.apart, []
        while at < bit.nodes[-1]:
            base.append(at)
            gamma = bit.profile_angle[np.argmin(np.abs(bit.radius - at))]
            at += bit.apart * max(0.125, np.cos(gamma) ** 1.5)
        outer = max(e[1] for e in self.ends)
        fine = [outer - bit.apart / k for k in (4, 16, 64)]
        return np.unique(np.concatenate([base, fine] + self.ends))

    def cuts(self, d):
        """For each cutter the depth by which it stands below what the others left, at its nodes; below 0 where it
        cuts nothing."""
        n = self.bit.count
        found = []
        for i in range(n):
            lo, hi = self.first[i], self.last[i]
            before = self.z[i] - d  # what it left a turn ago itself
            for m in range(n):
                start, end = max(lo, self.first[m]), min(hi, self.last[m])
                if m == i or start >= end:
                    continue
                part = before[start - lo:end - lo]
                other = self.z[m][start - self.first[m]:end - self.first[m]]
                np.maximum(part, other - d * self.lead[m, i], out=part)
            found.append(self.z[i] - before)
        return found

    def loads(self, d, rock, share):
        """Sums over the radii at depth of cut d (m/rev); `share` is w_d/w_c of each cutter. Strength follows the speed v
        of each cutter, and where rock is cut its depth h: (v/v_0)^a, (v h_0/(v_0 h))^a, h the mean over the rock cut."""
        bit, n = self.bit, self.bit.count
        names = ("area", "moment", "contact", "contact_moment", "contact_axial", "contact_radial", "contact_area",
                 "width", "mobilised", "flat", "diamond", "speed", "harder",
                 "cutting_width")
        out = {name: np.zeros(n) for name in names}
        out["d"] = d
        for i, cut in enumerate(self.cuts(d)):
            lo, hi = self.first[i], self.last[i]
            theta = bit.back_rake[i]
            r, z = self.nodes[lo:hi], self.z[i]
            dr, dz = np.diff(r), np.diff(z)
            ds = np.hypot(dr, dz)
            middle = 0.5 * (r[1:] + r[:-1])
            # A rake counts as a degree at least.
            sloped = np.tan(theta) if bit.spoil == "flat_shape" else np.sin(max(theta, np.radians(1.0)))
            s = self.s[i]
            longer = bit.longer[i]
            table, whole = bit.table[i] / np.cos(theta), bit.length[i] / np.cos(theta)
            flat = longer * np.minimum(s / sloped, table)
            diamond = np.maximum(bit.land[i], flat)
            carbide = longer * np.maximum(0.0, np.minimum(s / sloped, whole) - table)
            bearing = diamond + share[i] * carbide
            # Straight between two nodes, the cut covers a share of the way where it changes sign.
            one, two = cut[:-1], cut[1:]
            up, down = np.maximum(one, two), np.minimum(one, two)
            part = np.where(down >= 0, up > 0, np.where(up > 0, up / np.where(up > down, up - down, 1.0), 0.0))
            depth = np.where(down >= 0, 0.5 * (one + two), 0.5 * np.maximum(up, 0) * part)  # mean over dr
            over = np.where(part > 0, depth / np.where(part > 0, part, 1.0), 0.0)  # mean where there is a cut
            cosine = dr / ds
            # The root of the cut, elastic below a hundredth of what mobilises fully. Where a cut begins within a step,
            # at 4/9 of its end: there the root is its mean.
            x = np.where(down >= 0, 0.5 * (one + two), 4 / 9 * np.maximum(up, 0)) * cosine / (rock.mobilisation * diamond)
            rest = np.sqrt(0.01)
            mobile = np.minimum(1.0, (np.sqrt(x + 0.01) - rest) / (np.sqrt(1.01) - rest))
            v = max(rock.omega * bit.radius[i], 0.01)
            fast = (v / rock.rate_speed) ** rock.exponent
            force = rock.contact * fast * bearing * mobile * ds * part
            cut_area = np.sum(depth * dr)
            mean = np.sum(over**2 * part * cosine * dr) / cut_area if cut_area > 0 else rock.rate_depth
            out["speed"][i] = fast
            out["harder"][i] = fast * (rock.rate_depth / max(mean, 1e-6)) ** rock.exponent
            out["diamond"][i] = np.sum(diamond * mobile * ds * part)
            out["area"][i] = np.sum(depth * dr)
            out["moment"][i] = np.sum(middle * depth * dr)
            out["contact"][i] = np.sum(force)
            out["contact_moment"][i] = np.sum(middle * force)
            out["contact_axial"][i] = np.sum(force * cosine)
            out["contact_radial"][i] = np.sum(force * -dz / ds)
            out["contact_area"][i] = np.sum(bearing * mobile * ds * part)
            out["width"][i] = np.sum(mobile * ds * part)
            out["cutting_width"][i] = np.sum(ds * part)
            formed = longer * np.minimum(self.s_formed[i] / sloped, table)
            out["mobilised"][i] = np.sum(formed * mobile * ds * part)
            out["flat"][i] = np.sum(formed * ds)
        pressure = rock.strength / rock.efficiency * out["harder"]
        out["tangential"] = pressure * out["area"] + rock.friction * out["contact"]
        out["normal"] = bit.direction.normal * pressure * out["area"] + out["contact"]
        # Cutting acts on the plane face, along the tip's normal; contact along the outline's own.
        out["axial"] = np.sum(bit.up * pressure * out["area"] + out["contact_axial"])
        out["radial"] = bit.inward * pressure * out["area"] + out["contact_radial"]
        out["torque"] = np.sum(pressure * out["moment"] + rock.friction * out["contact_moment"])
        return out

    def reach(self):
        """Core radius and outer radius, m."""
        return max(0.0, min(e[0] for e in self.ends)), max(e[1] for e in self.ends)

    def depth_of_cut(self, weight, rock, share, near):
        """Depth of cut that carries `weight` on the cutters alone: bisection, then false position within the bracket.
        `near` only says where to look first."""
        force = lambda d: self.loads(d, rock, share)["axial"] - weight
        low, high = 0.97 * near, 1.03 * near
        f_low, f_high = force(low), force(high)
        while f_low > 0:
            low, (high, f_high) = low / 2, (low, f_low)
            f_low = force(low)
        while f_high < 0:
            (low, f_low), high = (high, f_high), 2 * high
            f_high = force(high)
        for _ in range(60):
            d = low - f_low * (high - low) / (f_high - f_low)
            if high - low > 1e-2 * high:
                d = 0.5 * (low + high)
            f = force(d)
            if abs(f) < 1e-7 * weight:
                return d
            if f < 0:
                low, f_low, f_high = d, f, (f_high if abs(f_high) < 10 * abs(f) else 0.5 * f_high)
            else:
                high, f_high, f_low = d, f, (f_low if abs(f_low) < 10 * abs(f) else 0.5 * f_low)
        return np.nan

    def blade_bearing(self, d, rock, lost_steel):
        """What the blades carry at depth of cut d, N, and its moment about the axis, N m: where rock stands over a
        blade's surface by x = min over m of (d dphi(m -> blade)/(2 pi) - (c_m - c_blade)), a whole turn for the blade's
        own cutters, it bears min(1, x/x*) of its bearing strength over the blade's thickness and x more, its front. A core that no cutter
        clears, within a cutter's radius of the axis, bears its unconfined strength. A blade's surface lies the exposure
        and its lost steel behind its tips, and runs on to the gauge behind the tips of all."""
        bit = self.bit
        at = np.arange(self.nodes[0], self.nodes[-1], bit.step)
        depth = [np.interp(at, self.nodes[lo:hi], z, left=-np.inf, right=-np.inf)
                 for lo, hi, z in zip(self.first, self.last, self.z)]
        behind = bit.exposure + (2e-4 if bit.spoil == "exposure" else 0.0) + lost_steel
        all_r, all_z = bit.radius - behind * np.sin(bit.profile_angle), bit.depth - behind * np.cos(bit.profile_angle)
        weight = moment = 0.0
        blades = len(np.unique(bit.blade))
        for blade in np.unique(bit.blade):
            own = np.flatnonzero(bit.blade == blade)
            own = own[np.argsort(all_r[own])]
            on = np.flatnonzero(all_r > all_r[own[-1]])
            on = on[np.argsort(all_r[on])]
            turned = np.unwrap(bit.azimuth[own])
            r = np.concatenate([all_r[own], all_r[on]])
            z = np.concatenate([all_z[own], all_z[on]])
            surface = np.interp(at, r, z)
            azimuth = np.interp(at, r, np.concatenate([turned, np.full(len(on), turned[-1])]))
            x = np.full(len(at), np.inf)
            cleared = np.zeros(len(at), dtype=bool)
            for m in range(bit.count):
                out = depth[m] - surface
                turn = np.mod(bit.azimuth[m] - azimuth, 2 * np.pi) / (2 * np.pi)
                if bit.blade[m] == blade:
                    turn[:] = 1.0
                x = np.minimum(x, np.where(np.isfinite(out), d * turn - out, np.inf))
                cleared |= out > 0
            on_blade = (at >= r.min()) & (at <= r.max()) & np.isfinite(x)
            core = on_blade & (at < bit.a.max()) & (np.cumsum(cleared & on_blade) == 0)
            along = np.minimum(bit.blade_thickness, 2 * np.pi * at / blades)
            yields = np.maximum(rock.mobilisation * rock.bearing / rock.contact * along, 1e-9)
            pressure = np.where(core, rock.unconfined, rock.bearing) * np.clip(x / yields, 0.0, 1.0)
            front = np.where(core, 0.0, np.maximum(0.0, np.where(on_blade, x, 0.0)))
            force = np.where(on_blade, pressure * (along + front) * bit.step, 0.0)
            weight += force.sum()
            moment += (force * at).sum()
        return weight, moment
