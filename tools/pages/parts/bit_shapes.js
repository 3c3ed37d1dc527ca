// Outlines of cutters and their wear flats, in metres, as the engine's geometry has them (models/geometry/outline.hpp and
// wear_flat.hpp): a cutter is a cylinder whose end face is the diamond table, cut by a plane along its travel.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // Worn heights past this would leave nothing of the outline to draw.
  const held = (cutter, u) => Math.max(0, Math.min(u || 0, 0.999 * cutter.diameter));

  // The edge of the face seen along the travel, all cutters turned into one plane: [[r, z], ...], z downward.
  function sectionOutline(cutter, u, points = 48) {
    const a = cutter.diameter / 2, worn = held(cutter, u);
    const theta = cutter.back_rake, beta = cutter.side_rake, gamma = cutter.profile_angle;
    const shift = a * Math.sin(theta) * Math.sin(beta), b = a * Math.cos(theta);
    const centre = [
      cutter.radius - b * Math.sin(gamma) + shift * Math.cos(gamma),
      cutter.depth - b * Math.cos(gamma) - shift * Math.sin(gamma),
    ];
    // From one end of the flat's chord round the back to the other: the chord closes it.
    const half = Math.acos(Math.max(-1, Math.min(1, (a - worn) / a)));
    const outline = [];
    for (let k = 0; k <= points; ++k) {
      const angle = half + (2 * Math.PI - 2 * half) * (k / points);
      const x = a * Math.sin(angle), y = a * Math.cos(angle);
      const along = x * Math.cos(beta) - y * Math.sin(theta) * Math.sin(beta), high = y * Math.cos(theta);
      outline.push([
        centre[0] + along * Math.cos(gamma) + high * Math.sin(gamma),
        centre[1] - along * Math.sin(gamma) + high * Math.cos(gamma),
      ]);
    }
    return outline;
  }

  // How far the flat reaches along the cutter's axis.
  function flatReach(cutter, u) {
    const tangent = Math.tan(cutter.back_rake);
    return tangent > 1e-9 ? Math.min(cutter.length, held(cutter, u) / tangent) : cutter.length;
  }

  // Half the width of the flat at a distance x along the axis behind the face.
  function flatHalfWidth(cutter, u, x) {
    const h = Math.max(0, held(cutter, u) - x * Math.tan(cutter.back_rake));
    return Math.sqrt(Math.max(0, h * (cutter.diameter - h)));
  }

  // The flat seen square on: [[across, behind the face along the travel], ...].
  function flatOutline(cutter, u, points = 24) {
    if (!(held(cutter, u) > 0)) return [];
    const reach = flatReach(cutter, u), there = [], back = [];
    for (let k = 0; k <= points; ++k) {
      // Denser towards the end, where the sides turn in.
      const x = reach * (1 - Math.pow(1 - k / points, 2));
      const half = flatHalfWidth(cutter, u, x), s = x / Math.cos(cutter.back_rake);
      there.push([half, s]);
      back.unshift([-half, s]);
    }
    return there.concat(back);
  }

  // Its area, m2: what the engine's flat_area says, for tests to compare.
  function flatArea(cutter, u) {
    const points = flatOutline(cutter, u, 400);
    let twice = 0;
    for (let k = 0; k < points.length; ++k) {
      const [x0, y0] = points[k], [x1, y1] = points[(k + 1) % points.length];
      twice += x0 * y1 - x1 * y0;
    }
    return Math.abs(twice) / 2;
  }

  // A point of a cutter seen from below: `along` the profile outward and `high` along its normal from the tip, `behind`
  // against the travel. x to the right, y up, the bit turning towards rising azimuth, which is counterclockwise here.
  function below(cutter, along, high, behind) {
    const gamma = cutter.profile_angle, azimuth = cutter.azimuth;
    const r = cutter.radius + along * Math.cos(gamma) + high * Math.sin(gamma);
    return [r * Math.cos(azimuth) + behind * Math.sin(azimuth), r * Math.sin(azimuth) - behind * Math.cos(azimuth)];
  }

  // Turned by the side rake: across the face and behind it, as along the profile and against the travel.
  function turned(cutter, across, behind) {
    const sine = Math.sin(cutter.side_rake), cosine = Math.cos(cutter.side_rake);
    return [across * cosine - behind * sine, across * sine + behind * cosine];
  }

  // The cutter's cylinder from below, [[x, y], ...]: as wide as it is, whatever way the profile leans.
  function bodyBelow(cutter) {
    const a = cutter.diameter / 2, b = a * Math.cos(cutter.back_rake), reach = cutter.length * Math.cos(cutter.back_rake);
    const gamma = cutter.profile_angle;
    const wide = Math.hypot(a * Math.cos(gamma), b * Math.sin(gamma));
    const middle = cutter.radius - b * Math.sin(gamma);
    const corner = (side, behind) => {
      const [along, back] = turned(cutter, side * wide, behind);
      const r = middle + along, azimuth = cutter.azimuth;
      return [r * Math.cos(azimuth) + back * Math.sin(azimuth), r * Math.sin(azimuth) - back * Math.cos(azimuth)];
    };
    const table = cutter.table_thickness * Math.cos(cutter.back_rake);
    return {
      outline: [corner(-1, 0), corner(1, 0), corner(1, reach), corner(-1, reach)],
      table: [corner(-1, 0), corner(1, 0), corner(1, table), corner(-1, table)],
    };
  }

  // The flat from below, foreshortened as the profile leans.
  function flatBelow(cutter, u) {
    const level = -held(cutter, u) * Math.cos(cutter.back_rake);
    return flatOutline(cutter, u).map(([across, behind]) => {
      const [along, back] = turned(cutter, across, behind);
      return below(cutter, along, level, back);
    });
  }

  dullcast.bitShapes = { sectionOutline, flatOutline, flatArea, flatReach, flatHalfWidth, bodyBelow, flatBelow };
})();
