// One cutter close up: its face with the flat's chord, and the flat seen square on, both to one scale.
// needs parts/units.js parts/bit_shapes.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const line = (points) => (points.length ? "M" + points.map((p) => p[0].toFixed(2) + " " + p[1].toFixed(2)).join("L") + "Z" : "");

  // cutterView(svg, view, {cutter, row, fill, units, words}): draws cutter number `cutter` (from 0) of what run_view gives
  // at a row into an emptied `svg` (of d3). fill: its colour, null for a cutter that is gone; words: what the figure shows.
  dullcast.cutterView = function (svg, view, { cutter, row, fill, units, words }) {
    const c = view.bit.cutters[cutter], i = cutter, by = view.rows.cutters;
    svg.attr("viewBox", "0 0 300 330").attr("width", 300).attr("height", 330);
    // Both units at once would not fit beside their labels.
    const one = units.system === "both" ? dullcast.units("field") : units;
    const u = by.worn_height[i][row] || 0;
    svg.selectAll("*").remove();
    const a = c.diameter / 2, scale = 58 / a, cx = 74, cy = 84;
    svg.append("text").attr("x", 8).attr("y", 14).attr("class", "head").text("Cutter " + c.number + ", " + c.zone + ", blade " + c.blade);
    const half = Math.acos(Math.max(-1, Math.min(1, (a - u) / a)));
    const face = [];
    for (let k = 0; k <= 64; ++k) {
      const angle = half + (2 * Math.PI - 2 * half) * (k / 64);
      face.push([cx + scale * a * Math.sin(angle), cy + scale * a * Math.cos(angle)]);
    }
    svg.append("circle").attr("cx", cx).attr("cy", cy).attr("r", scale * a).attr("class", "as-new");
    svg.append("path").attr("d", line(face)).attr("class", fill ? "cutter-face" : "cutter-face lost").attr("fill", fill || "none");
    if (c.bevel_width > 0) svg.append("circle").attr("cx", cx).attr("cy", cy).attr("r", scale * (a - c.bevel_width)).attr("class", "bevel");
    svg.append("text").attr("x", cx).attr("y", cy + scale * a + 18).attr("class", "label").attr("text-anchor", "middle").text("the face");
    const fx = 220, fy = 30;
    const flat = !fill ? [] : dullcast.bitShapes.flatOutline(c, u).map(([across, s]) => [fx + scale * across, fy + scale * s]);
    const reach = scale * c.length / Math.cos(c.back_rake);
    svg.append("rect").attr("x", fx - scale * a).attr("y", fy).attr("width", 2 * scale * a).attr("height", reach).attr("class", "as-new");
    svg.append("line").attr("x1", fx - scale * a).attr("x2", fx + scale * a).attr("y1", fy + scale * c.table_thickness / Math.cos(c.back_rake)).attr("y2", fy + scale * c.table_thickness / Math.cos(c.back_rake)).attr("class", "bevel").append("title").text("where diamond meets carbide");
    svg.append("path").attr("d", line(flat)).attr("class", "flat-close");
    svg.append("text").attr("x", fx).attr("y", fy + reach + 18).attr("class", "label").attr("text-anchor", "middle").text("the flat, seen square on");
    const chance = -Math.expm1(-(by.chip_hazard[i][row] || 0));
    const lines = [
      ["flat", one.show("temperature", by.flat_temperature[i][row])],
      ["worn height", one.show("length", u)],
      ["flat's area", one.show("area", by.flat_area[i][row])],
      ["heat damage", units.plain(by.heat_damage[i][row], 2) + " of 1"],
      ["chip chance so far", units.show("share", chance, 2)],
      ["size", one.show("length", c.diameter) + " by " + one.show("length", c.length)],
      ["back rake", units.show("angle", c.back_rake)],
      ["grade", c.grade],
    ];
    lines.forEach(([label, value], k) => {
      svg.append("text").attr("x", 8).attr("y", 196 + 17 * k).attr("class", "label").text(label);
      svg.append("text").attr("x", 130).attr("y", 196 + 17 * k).attr("class", "value").text(value);
    });
    svg.attr("aria-label", words);
  };
})();
