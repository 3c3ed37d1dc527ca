"""A cutter's face as a disc in space: tilted by its back rake, then turned by its side rake about the profile's normal.
What the disc looks like along its travel, and which way it pushes the rock. From vectors, not from closed forms.

Three axes: along the travel, along the profile outward, along the profile's normal towards the rock. One array entry
per cutter; angles in radians. `spoil` is as in bit_physics.py.
"""

import numpy as np


def face_axes(back_rake, side_rake):
    """Unit vectors (travel, outward, towards the rock) of each face: out of the face towards the rock that it meets,
    down the face to its tip, and across the face outward. A face with side rake above 0 looks outward."""
    zero = np.zeros_like(back_rake)

    def turned(travel, outward, normal):
        c, s = np.cos(side_rake), np.sin(side_rake)
        return np.stack([c * travel - s * outward, s * travel + c * outward, normal])

    looks = turned(np.cos(back_rake), zero, np.sin(back_rake))
    down = turned(-np.sin(back_rake), zero, np.cos(back_rake))
    return looks, down, turned(zero, zero + 1, zero)


class CuttingDirection:
    """Which way the force of cutting acts, over its part against the travel: towards the rock (`normal`), outward on
    the rock (`sideways`), and how much of it rubs on the face (`chip_friction`). The face presses along what it looks
    to; the chip slides up the face at the side rake to the edge's normal (Stabler's rule), and the face's friction is
    along it. psi is its angle seen in the plane normal to the edge: the whole friction is tan(psi)/cos(side rake)."""

    def __init__(self, back_rake, side_rake, psi, spoil=None):
        looks, down, across = face_axes(back_rake, side_rake)
        if spoil == "side_rake_drag":
            across = 0 * across
        force = looks + np.tan(psi) * (down - np.tan(side_rake) * across)
        self.normal, self.sideways = force[2] / force[0], force[1] / force[0]
        self.chip_friction = np.tan(psi) / np.cos(side_rake) / force[0]
        if spoil == "side_rake_normal":
            self.normal = np.tan(back_rake + psi)
        if spoil == "side_rake_direction":
            self.sideways = 1.03 * self.sideways
        if spoil == "side_rake_chip":
            self.chip_friction = np.sin(psi) / np.cos(back_rake + psi)


class FaceOutline:
    """One worn face of radius a seen along its travel: of the disc x^2 + y^2 <= a^2 the part y <= a - worn, x across
    the face and y down it to the tip, which is at (0, a) where the layout has it."""

    def __init__(self, bit, i, spoil=None):
        self.a = bit.a[i]
        _, down, across = face_axes(bit.back_rake[i], bit.side_rake[i])
        if spoil == "side_rake_outline":
            down = np.array([down[0], 0.0, down[2]])
        c, s = np.cos(bit.profile_angle[i]), np.sin(bit.profile_angle[i])
        # Radius and depth of a point: outward along the profile is (c, -s), its normal (s, c).
        place = np.array([[c, s], [-s, c]])
        self.across, self.down = place @ across[1:], place @ down[1:]
        self.centre = np.array([bit.radius[i], bit.depth[i]]) - self.a * self.down
        # From place back to the face: x and y are these times radius and depth from the centre.
        self.to_face = np.linalg.inv(np.stack([self.across, self.down], axis=1))
        # Half the disc's width in radius, and y of its outermost point; x there is above 0.
        self.half = self.a * np.hypot(self.across[0], self.down[0])
        self.widest = self.a**2 * self.down[0] / self.half

    def lowest(self, r, worn):
        """Depth of the worn outline at radii within its reach, and x of the point that is seen there."""
        # Along a line of one radius x = x_0 + t x_1, y = y_0 + t y_1, t the depth under the centre: the larger t of
        # x^2 + y^2 = a^2, and no deeper than the flat.
        from_centre = r - self.centre[0]
        (x_0, y_0), (x_1, y_1) = np.outer(self.to_face[:, 0], from_centre), self.to_face[:, 1]
        A, B, C = x_1**2 + y_1**2, x_0 * x_1 + y_0 * y_1, x_0**2 + y_0**2 - self.a**2
        t = (-B + np.sqrt(np.maximum(0.0, B**2 - A * C))) / A
        t = np.minimum(t, (self.a - worn - y_0) / y_1)
        return self.centre[1] + t, x_0 + t * x_1

    def flat_ends(self, worn):
        x, y = np.sqrt(max(0.0, worn * (2 * self.a - worn))), self.a - worn
        return [self.centre[0] + y * self.down[0] + side * x * self.across[0] for side in (-1, 1)]

    def ends(self, worn):
        """Radii where the worn outline ends. Where the flat cuts the disc off short of its widest point, the outline
        ends with the flat."""
        inner, outer = self.flat_ends(worn)
        return [inner if self.a - worn < -self.widest else self.centre[0] - self.half,
                outer if self.a - worn < self.widest else self.centre[0] + self.half]
