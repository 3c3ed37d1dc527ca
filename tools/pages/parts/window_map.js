// Where a bit may be run in one layer: weight against rotary speed, and the limit that binds outside.
// needs parts/units.js parts/sweep_charts.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // One letter and one shade a limit: letters tell them apart in grey.
  const limits = {
    heat: ["H", "#d55e00"], wear: ["W", "#e69f00"], chips: ["C", "#cc79a7"], retention: ["S", "#a06a8c"], progress: ["p", "#b8c4cf"],
    standstill: ["\u2013", "#8d99a6"], packing: ["P", "#56b4e9"], film: ["F", "#0072b2"], rubbing: ["R", "#7f7259"], weight: ["L", "#5b6470"],
    pressure: ["U", "#4d8f7c"], failed: ["?", "#999999"],
  };

  // windowMap(container, view, which, options): view.windows[which] (engine/pages/window_view.hpp). options: units.
  dullcast.windowMap = function (container, view, which, options = {}) {
    return dullcast.chart(container, view, options, "window", (svg, width, units) => {
      const one = view.windows[which], wide = Math.min(width, 460);
      const columns = one.rotary_speeds.length, rows = one.weights.length;
      const left = 58, top = 30, cell = (wide - left - 12) / columns, high = Math.max(15, Math.min(26, 260 / rows));
      const height = top + rows * high + 44;
      svg.attr("viewBox", "0 0 " + wide + " " + height).attr("width", wide).attr("height", height);
      svg.append("text").attr("class", "head").attr("x", left).attr("y", 14).text(one.rock + ", " + units.show("depth", one.top) + " to " + units.show("depth", one.bottom) + ", at " + units.show(view.gas ? "gas_flow" : "flow", one.flow));
      const yOf = (k) => top + (rows - 1 - k) * high;
      let fastest = 0;
      for (const c of one.cells) if (c.limit === "inside") fastest = Math.max(fastest, c.progress || 0);
      for (let w = 0; w < rows; ++w) {
        svg.append("text").attr("class", "tick").attr("x", left - 6).attr("y", yOf(w) + high / 2).attr("text-anchor", "end").attr("dominant-baseline", "central").text(units.plain(units.convert("weight", one.weights[w]), 3));
        for (let s = 0; s < columns; ++s) {
          const c = one.cells[w * columns + s], inside = c.limit === "inside", style = limits[c.limit];
          const g = svg.append("g");
          g.append("rect").attr("class", inside ? "cell inside" : "cell").attr("x", left + s * cell).attr("y", yOf(w)).attr("width", cell - 1).attr("height", high - 1)
            .style("fill", inside ? null : style[1]).style("fill-opacity", inside ? 0.25 + (0.75 * (c.progress || 0)) / (fastest || 1) : 0.45);
          g.append("text").attr("class", inside ? "cell-value" : "cell-letter").attr("x", left + (s + 0.5) * cell - 0.5).attr("y", yOf(w) + high / 2).attr("text-anchor", "middle").attr("dominant-baseline", "central")
            .text(inside ? (cell > 26 ? units.plain(units.convert("progress", c.progress), 2) : "") : style[0]);
          g.append("title").text(units.show("weight", one.weights[w]) + ", " + units.show("rotary_speed", one.rotary_speeds[s]) + ": " + one.limits[c.limit] + "; progress " + units.show("progress", c.progress) + ", hottest flat " + units.show("temperature", c.hottest_flat));
        }
      }
      one.rotary_speeds.forEach((speed, s) => {
        if (cell > 24 || s % 2 === 0)
          svg.append("text").attr("class", "tick").attr("x", left + (s + 0.5) * cell).attr("y", top + rows * high + 13).attr("text-anchor", "middle").text(units.plain(units.convert("rotary_speed", speed), 3));
      });
      svg.append("text").attr("class", "label").attr("x", left).attr("y", 26).attr("text-anchor", "end").text(units.unit("weight"));
      svg.append("text").attr("class", "label").attr("x", wide - 12).attr("y", top + rows * high + 30).attr("text-anchor", "end").text("rpm");
      // The plan between the cells.
      const at = (value, list, place) => {
        if (value <= list[0]) return place(0);
        for (let k = 1; k < list.length; ++k)
          if (value <= list[k]) return place(k - 1) + ((place(k) - place(k - 1)) * (value - list[k - 1])) / (list[k] - list[k - 1]);
        return place(list.length - 1);
      };
      const px = at(one.planned.rotary_speed, one.rotary_speeds, (s) => left + (s + 0.5) * cell), py = at(one.planned.weight, one.weights, (w) => yOf(w) + high / 2);
      svg.append("path").attr("class", "planned").attr("d", "M" + px + " " + (py - 7) + "l7 7l-7 7l-7 -7z").append("title").text("the plan: " + one.planned.words);
      svg.attr("aria-label", "Operating window in " + one.rock + ": the plan is " + (one.planned.limit === "inside" ? "inside" : "outside, " + one.planned.words) + ".");
    });
  };

  // The limits that the maps of a run show, as [letter, colour, words].
  dullcast.windowMap.key = function (view) {
    const seen = new Set(view.windows.flatMap((w) => w.cells.map((c) => c.limit)));
    seen.delete("inside");
    return Array.from(seen, (name) => [limits[name][0], limits[name][1], view.windows[0].limits[name]]);
  };
})();
