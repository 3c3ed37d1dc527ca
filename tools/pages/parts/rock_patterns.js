// Patterns of rocks in a column, drawn plainly after the shapes that geologists' columns use: dashes for clay and shale,
// dots for sand, bricks for limestone, slanted bricks for dolomite, crosses for granite, v for lava, circles for gravel,
// triangles for chert.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // [width, height, background share of ink, path of lines, dots [[x, y, r]...], filled paths]
  const shapes = {
    clay: { w: 18, h: 10, lines: "M2 3h6M11 8h6", tint: 0.1 },
    shale: { w: 20, h: 9, lines: "M0 2h13M10 6.5h10M0 6.5h4", tint: 0.16 },
    siltstone: { w: 20, h: 12, lines: "M1 3h7M11 9h7", dots: [[12, 3, 0.8], [16, 3, 0.8], [3, 9, 0.8], [7, 9, 0.8]], tint: 0.1 },
    marl: { w: 24, h: 14, lines: "M0 0h24M0 7h24M6 0v7M18 7v7M11 3.5h7M3 10.5h7", tint: 0.1 },
    limestone: { w: 24, h: 14, lines: "M0 0h24M0 7h24M6 0v7M18 7v7", tint: 0.04 },
    dolomite: { w: 24, h: 14, lines: "M0 0h24M0 7h24M8 0L4 7M20 7L16 14", tint: 0.06 },
    chert: { w: 24, h: 14, lines: "M0 0h24M0 7h24M6 0v7M18 7v7", filled: "M12 5.6l2.4-4h-4.8zM2 12.6l2.4-4h-4.8zM26 12.6l2.4-4h-4.8z", tint: 0.04 },
    sandstone: { w: 12, h: 10, dots: [[2, 2.5, 0.9], [8, 2.5, 0.9], [5, 7.5, 0.9], [11, 7.5, 0.9]], tint: 0.05 },
    hard_sandstone: { w: 12, h: 12, lines: "M0 0h12", dots: [[2, 3, 1.1], [8, 3, 1.1], [5, 7, 1.1], [11, 7, 1.1], [2, 10.4, 1.1], [8, 10.4, 1.1]], tint: 0.12 },
    quartzite: { w: 16, h: 14, lines: "M2 3l4 4M6 3l-4 4", dots: [[11, 3, 0.9], [14, 8, 0.9], [9, 11, 0.9], [3, 12, 0.9]], tint: 0.12 },
    sand: { w: 14, h: 14, dots: [[2, 2, 0.8], [9, 4, 0.8], [5, 8, 0.8], [12, 10, 0.8], [3, 12.4, 0.8]], tint: 0.02 },
    gravelly_sand: { w: 26, h: 22, lines: "M6 6m-3.4 0a3.4 2.6 0 1 0 6.8 0a3.4 2.6 0 1 0 -6.8 0", dots: [[16, 4, 0.8], [22, 8, 0.8], [13, 11, 0.8], [3, 15, 0.8], [9, 18, 0.8], [18, 17, 0.8], [24, 20, 0.8]], tint: 0.02 },
    gravel: { w: 26, h: 20, lines: "M6 6m-4 0a4 3 0 1 0 8 0a4 3 0 1 0 -8 0M19 5m-3 0a3 2.4 0 1 0 6 0a3 2.4 0 1 0 -6 0M14 14.6m-4.6 0a4.6 3.2 0 1 0 9.2 0a4.6 3.2 0 1 0 -9.2 0", dots: [[2, 14, 1], [23, 15, 1]], tint: 0.04 },
    granite: { w: 18, h: 18, lines: "M3 5h6M6 2v6M12 13h5M14.5 10.5v5", tint: 0.08 },
    basalt: { w: 16, h: 14, lines: "M2 2l2.5 4.5l2.5-4.5M10 9l2.5 4.5l2.5-4.5", tint: 0.18 },
    coal: { w: 10, h: 6, lines: "M0 1.5h10M0 4.5h10", tint: 0.6 },
    plain: { w: 12, h: 12, lines: "M0 12L12 0", tint: 0.03 },
  };

  let made = 0;  // so that two figures of one page have patterns of their own

  // rockPatterns(defs): fill(name) gives what to fill with, and puts the pattern into `defs` when it is first asked for.
  dullcast.rockPatterns = function (defs) {
    const own = "rock-" + ++made + "-";
    const there = new Set();
    return function fill(name) {
      const key = shapes[name] ? name : "plain";
      if (!there.has(key)) {
        there.add(key);
        const shape = shapes[key];
        const pattern = defs
          .append("pattern")
          .attr("id", own + key)
          .attr("width", shape.w)
          .attr("height", shape.h)
          .attr("patternUnits", "userSpaceOnUse");
        pattern.append("rect").attr("width", shape.w).attr("height", shape.h).attr("class", "rock-ground");
        pattern
          .append("rect")
          .attr("width", shape.w)
          .attr("height", shape.h)
          .attr("class", "rock-tint")
          .attr("fill-opacity", shape.tint);
        if (shape.lines) pattern.append("path").attr("d", shape.lines).attr("class", "rock-line");
        if (shape.filled) pattern.append("path").attr("d", shape.filled).attr("class", "rock-ink");
        for (const [x, y, r] of shape.dots || [])
          pattern.append("circle").attr("cx", x).attr("cy", y).attr("r", r).attr("class", "rock-ink");
      }
      return "url(#" + own + key + ")";
    };
  };
  dullcast.rockPatterns.names = Object.keys(shapes);
})();
