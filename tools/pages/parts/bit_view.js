// The bit at one row of a run: from below, in section and one cutter close up, coloured by temperature or wear.
// needs third_party/d3/d3.min.js parts/units.js parts/colours.js parts/run_rows.js parts/bit_shapes.js
// needs parts/cutter_view.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  let made = 0;

  // bitView(container, view, options): draws into the element `container`. view: what run_view gives. options, all
  // optional:
  //   units     dullcast.units(...)
  //   row       row to show first (from 0)
  //   colourBy  "temperature" or "wear"
  //   cutter    number of the cutter to show close up, from 1
  //   controls  false: none (the page has its own)
  // Gives {update(row), setView(view, row), setUnits(units), setColour(word), setCutter(number), figures: {below,
  // section, cutter}}. To scale; flats are drawn as the plane cuts the cylinder.
  dullcast.bitView = function (container, view, options = {}) {
    const id = "bit-" + ++made;
    let units = options.units || dullcast.units(view.units);
    let data = dullcast.runRows(view);
    let row = options.row || 0;
    let colourBy = options.colourBy || "temperature";
    let chosen = options.cutter || (data.count ? data.greatest("flat_temperature", row) + 1 : 1);
    const shapes = dullcast.bitShapes;

    const root = d3.select(container);
    root.selectAll("*").remove();
    const bar = root.append("div").attr("class", "controls only-screen");
    let colourSelect = null, cutterSelect = null;
    if (options.controls !== false) {
      const one = bar.append("label").text("Colour by ");
      colourSelect = one.append("select").attr("id", id + "-colour-by");
      for (const [value, words] of [["temperature", "temperature"], ["wear", "worn height"]])
        colourSelect.append("option").attr("value", value).text(words);
      colourSelect.property("value", colourBy).on("change", function () {
        colourBy = this.value;
        paint();
      });
      const two = bar.append("label").text("Close up: cutter ");
      cutterSelect = two.append("select").attr("id", id + "-close-up");
      cutterSelect.on("change", function () {
        choose(+this.value);
      });
    }
    const holder = root.append("div").attr("class", "bit-figures");
    const figure = (name, words) => {
      const box = holder.append("figure").attr("class", "bit-figure bit-" + name);
      const svg = box.append("svg").attr("class", "figure").attr("id", id + "-" + name).attr("role", "img");
      box.append("figcaption").text(words);
      return svg;
    };
    const below = figure("below", "From below, to scale; the bit turns as the arrow shows");
    const section = figure("section", "All cutters turned into one plane, to scale");
    const close = figure("cutter", "One cutter close up");
    let parts = null;

    const line = (points) => (points.length ? "M" + points.map((p) => p[0].toFixed(2) + " " + p[1].toFixed(2)).join("L") + "Z" : "");

    function scaleOfColour() {
      if (colourBy === "wear") {
        let high = 0;
        for (const list of view.rows.cutters.worn_height) high = Math.max(high, list[list.length - 1] || 0);
        return { kind: "length", low: 0, high: high || 1e-3, of: (i) => view.rows.cutters.worn_height[i][row] };
      }
      const inlet = view.fluid.inlet_temperature;
      const hottest = d3.max(data.hottest()) || inlet + 1;
      const mark = view.marks.length ? view.marks[0].temperature : hottest;
      return { kind: "temperature", low: inlet, high: Math.max(hottest, mark), mark, of: (i) => view.rows.cutters.flat_temperature[i][row] };
    }

    function build() {
      const cutters = view.bit.cutters;
      if (cutterSelect) {
        cutterSelect.selectAll("option").remove();
        for (const c of cutters) cutterSelect.append("option").attr("value", c.number).text(c.number);
        chosen = Math.min(chosen, cutters.length);
        cutterSelect.property("value", chosen);
      }
      parts = { below: [], section: [] };
      buildBelow(cutters);
      buildSection(cutters);
    }

    function buildBelow(cutters) {
      const size = 360, radius = view.bit.diameter / 2, scale = (size / 2 - 14) / radius;
      const at = (p) => [size / 2 + scale * p[0], size / 2 - scale * p[1]];
      below.selectAll("*").remove();
      below.attr("viewBox", "0 0 " + size + " " + (size + 46)).attr("width", size).attr("height", size + 46);
      below.append("circle").attr("cx", size / 2).attr("cy", size / 2).attr("r", scale * radius).attr("class", "bore");
      for (let b = 1; b <= view.bit.blades; ++b) {
        const mine = cutters.filter((c) => c.blade === b).sort((p, q) => p.radius - q.radius);
        if (mine.length) below.append("path").attr("d", line(bladeOutline(mine, radius).map(at))).attr("class", "blade");
      }
      below.append("circle").attr("cx", size / 2).attr("cy", size / 2).attr("r", 2).attr("class", "axis-point");
      // The way of turning: an arc outside of the gauge with a head.
      const r = scale * radius + 7, from = -0.35, to = 0.15;
      const on = (t) => [size / 2 + r * Math.cos(t), size / 2 - r * Math.sin(t)];
      const [x0, y0] = on(from), [x1, y1] = on(to);
      below.append("path").attr("d", "M" + x0 + " " + y0 + "A" + r + " " + r + " 0 0 0 " + x1 + " " + y1).attr("class", "turning");
      below.append("path").attr("d", "M" + x1 + " " + (y1 - 7) + "l-4.5 8h8z").attr("class", "turning-head");
      cutters.forEach((c, i) => {
        const g = below.append("g").attr("class", "cutter").attr("data-cutter", c.number).on("click", () => choose(c.number));
        const body = shapes.bodyBelow(c);
        const outline = g.append("path").attr("d", line(body.outline.map(at))).attr("class", "cutter-body");
        g.append("path").attr("d", line(body.table.map(at))).attr("class", "cutter-table");
        const flat = g.append("path").attr("class", "flat");
        const middle = at([d3.mean(body.outline, (p) => p[0]), d3.mean(body.outline, (p) => p[1])]);
        const name = g.append("text").attr("x", middle[0]).attr("y", middle[1]).attr("class", "cutter-name").attr("text-anchor", "middle").attr("dominant-baseline", "central").text(c.number);
        const title = g.append("title");
        parts.below.push({ g, outline, flat, name, title, c, i, at });
      });
      parts.legend = below.append("g").attr("transform", "translate(14," + (size + 8) + ")");
      parts.legendWidth = size - 28;
    }

    // A blade's top behind its cutters: from the first to the wall, as thick as the bit says or as a cutter is long.
    function bladeOutline(mine, radius) {
      const thick = view.bit.blade_thickness || 1.6 * mine[0].length;
      const front = [], back = [];
      const last = mine[mine.length - 1];
      const points = mine.map((c) => [c.radius, c.azimuth]);
      points.unshift([Math.max(0, mine[0].radius - mine[0].diameter / 2), mine[0].azimuth]);
      points.push([radius, last.azimuth]);
      for (const [r, azimuth] of points) {
        front.push([r * Math.cos(azimuth), r * Math.sin(azimuth)]);
        const x = r * Math.cos(azimuth) + thick * Math.sin(azimuth), y = r * Math.sin(azimuth) - thick * Math.cos(azimuth);
        const over = Math.max(1, Math.hypot(x, y) / radius);
        back.unshift([x / over, y / over]);
      }
      return front.concat(back);
    }

    function buildSection(cutters) {
      const radius = view.bit.diameter / 2;
      let high = Infinity, low = -Infinity;
      for (const c of cutters)
        for (const [, z] of shapes.sectionOutline(c, 0)) (high = Math.min(high, z)), (low = Math.max(low, z));
      const width = 360, left = 16, right = 22, scale = (width - left - right) / radius;
      const height = Math.max(150, (low - high) * scale + 82);
      const at = ([r, z]) => [left + scale * r, 34 + scale * (z - high)];
      section.selectAll("*").remove();
      section.attr("viewBox", "0 0 " + width + " " + height).attr("width", width).attr("height", height);
      section.append("line").attr("class", "bit-axis").attr("x1", left).attr("x2", left).attr("y1", 22).attr("y2", height - 20);
      section.append("text").attr("class", "label").attr("x", left).attr("y", 14).text("axis");
      const wall = left + scale * radius;
      section.append("line").attr("class", "wall").attr("x1", wall).attr("x2", wall).attr("y1", 22).attr("y2", height - 20);
      section.append("text").attr("class", "label").attr("x", wall).attr("y", 14).attr("text-anchor", "end").text("wall of the hole");
      const profile = view.bit.profile.radius.map((r, k) => [r, view.bit.profile.depth[k]]).filter((p) => p[1] !== null);
      cutters.forEach((c, i) => {
        const g = section.append("g").attr("class", "cutter").attr("data-cutter", c.number).on("click", () => choose(c.number));
        const outline = g.append("path").attr("class", "cutter-face");
        const [x, y] = at([c.radius, c.depth]);
        // Under the tip, along the normal.
        const name = g.append("text").attr("x", x + 11 * Math.sin(c.profile_angle)).attr("y", y + 11 * Math.cos(c.profile_angle)).attr("class", "label").attr("text-anchor", "middle").attr("dominant-baseline", "central").text(c.number);
        const title = g.append("title");
        parts.section.push({ g, outline, name, title, c, i, at });
      });
      section.append("path").attr("class", "new-profile").attr("d", d3.line()(profile.map(at))).append("title").text("the new bit's edge");
      const mm = niceLength(radius / 3);
      const length = scale * mm.metres;
      section.append("path").attr("class", "scale-bar").attr("d", "M" + left + " " + (height - 8) + "v-5v5h" + length + "v-5");
      section.append("text").attr("class", "label").attr("x", left + length + 6).attr("y", height - 6).text(mm.words);
    }

    function niceLength(metres) {
      const unit = units.unit("length"), shown = units.convert("length", metres);
      const round = d3.tickStep(0, shown, 1);
      return { metres: units.back("length", round), words: units.plain(round, 2) + " " + unit };
    }

    function stateOf(i) {
      if (data.lost(i, row)) return "lost";
      if (data.tableGone(i, row)) return "bare";
      return "whole";
    }

    function wordsOf(c, i) {
      const by = view.rows.cutters;
      const state = stateOf(i);
      return (
        "Cutter " + c.number + ", blade " + c.blade + ", " + c.zone +
        (state === "lost" ? ": gone" : ": " + units.show("temperature", by.flat_temperature[i][row]) + ", worn " + units.show("length", by.worn_height[i][row]) +
          (state === "bare" ? ", without diamond" : "") + (by.film[i][row] > 0.5 ? ", under steam" : ""))
      );
    }

    function paint() {
      if (!data.count) return;
      const colour = scaleOfColour();
      const share = (value) => (value - colour.low) / (colour.high - colour.low || 1);
      const hue = (i) => dullcast.colours.value(share(colour.of(i)));
      for (const p of parts.below) {
        const u = view.rows.cutters.worn_height[p.i][row], state = stateOf(p.i), fill = hue(p.i);
        p.outline.attr("fill", state === "lost" ? "none" : fill).classed("lost", state === "lost");
        p.flat.attr("d", state === "lost" ? "" : line(shapes.flatBelow(p.c, u).map(p.at)));
        p.name.style("fill", state === "lost" ? null : dullcast.colours.textOn(fill));
        p.g.classed("chosen", p.c.number === chosen).classed("steam", view.rows.cutters.film[p.i][row] > 0.5);
        p.title.text(wordsOf(p.c, p.i));
      }
      for (const p of parts.section) {
        const u = view.rows.cutters.worn_height[p.i][row], state = stateOf(p.i);
        p.outline.attr("d", line(shapes.sectionOutline(p.c, u).map(p.at))).attr("fill", state === "lost" ? "none" : hue(p.i)).classed("lost", state === "lost");
        p.g.classed("chosen", p.c.number === chosen);
        p.title.text(wordsOf(p.c, p.i));
      }
      below.attr("aria-label", "The bit from below. " + summary());
      section.attr("aria-label", "The bit in section. " + summary());
      legend(colour);
      const at = chosen - 1;
      dullcast.cutterView(close, view, { cutter: at, row, fill: stateOf(at) === "lost" ? null : hue(at), units, words: wordsOf(view.bit.cutters[at], at) });
    }

    function summary() {
      const hottest = data.greatest("flat_temperature", row), worn = data.greatest("worn_height", row);
      return "Hottest: " + wordsOf(view.bit.cutters[hottest], hottest) + ". Most worn: " + wordsOf(view.bit.cutters[worn], worn) + ".";
    }

    function legend(colour) {
      const g = parts.legend, width = parts.legendWidth, steps = 40;
      g.selectAll("*").remove();
      for (let k = 0; k < steps; ++k)
        g.append("rect").attr("x", (k * width) / steps).attr("width", width / steps + 0.6).attr("height", 9).attr("fill", dullcast.colours.value((k + 0.5) / steps));
      const x = d3.scaleLinear().domain([units.convert(colour.kind, colour.low), units.convert(colour.kind, colour.high)]).range([0, width]);
      const unit = units.unit(colour.kind);
      x.ticks(5).forEach((tick) => {
        g.append("line").attr("x1", x(tick)).attr("x2", x(tick)).attr("y1", 9).attr("y2", 13).attr("class", "tick-line");
        if (x(tick) < width - 40)
          g.append("text").attr("x", x(tick)).attr("y", 24).attr("class", "tick").attr("text-anchor", x(tick) < 10 ? "start" : "middle").text(units.plain(tick, 3));
      });
      g.append("text").attr("x", width).attr("y", 24).attr("class", "tick").attr("text-anchor", "end").text(unit);
      if (colour.mark) {
        const mark = x(units.convert("temperature", colour.mark));
        g.append("path").attr("d", "M" + mark + " -1l-4 -6h8z").attr("class", "event-mark").append("title").text(units.say(view.marks[0].words));
      }
    }

    function choose(number) {
      chosen = number;
      if (cutterSelect) cutterSelect.property("value", number);
      paint();
    }

    build();
    paint();
    return {
      update(next) {
        row = next;
        paint();
      },
      setView(next, at = 0) {
        view = next;
        data = dullcast.runRows(view);
        row = at;
        build();
        paint();
      },
      setUnits(next) {
        units = next;
        build();
        paint();
      },
      setColour(word) {
        colourBy = word;
        if (colourSelect) colourSelect.property("value", word);
        paint();
      },
      setCutter: choose,
      cutter: () => chosen,
      figures: { below: below.node(), section: section.node(), cutter: close.node() },
    };
  };
})();
