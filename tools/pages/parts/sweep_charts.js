// What a sweep's runs mean, in figures: how long bits last, what each setting came to over its draws, what matters, and
// what settings trade. Each takes (container, sweep, options) with what sweep_view gives (engine/pages/sweep_view.hpp) and
// options.units, and gives {svg, setUnits(units), redraw()}.
// needs third_party/d3/d3.min.js parts/units.js parts/colours.js parts/figure_size.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  let made = 0;

  // A figure as wide as its container, drawn anew when that or the units change.
  function chart(container, sweep, options, name, draw) {
    let units = options.units || dullcast.units(sweep.units);
    const root = d3.select(container);
    root.selectAll("*").remove();
    const svg = root.append("svg").attr("class", "figure").attr("id", name + "-" + ++made).attr("role", "img");
    const redraw = () => {
      svg.selectAll("*").remove();
      draw(svg, dullcast.figureWidth(container, 300), units, svg.attr("id"));
    };
    dullcast.onResize(container, redraw);
    redraw();
    return { svg: svg.node(), redraw, setUnits(next) { units = next; redraw(); } };
  }
  dullcast.chart = chart;

  const size = (svg, width, height) => svg.attr("viewBox", "0 0 " + width + " " + height).attr("width", width).attr("height", height);
  const differences = { temperature_difference: [1.8, "F\u00b0", 1, "K"] };
  const shown = (units, kind, value) => {
    if (value === null || value === undefined) return NaN;
    if (differences[kind]) return value * differences[kind][units.system === "si" ? 2 : 0];
    return units.convert(kind, value);
  };
  const unitOf = (units, sweep, kind) => {
    if (differences[kind]) return differences[kind][units.system === "si" ? 3 : 1];
    return (kind === "per_length" ? sweep.currency : "") + units.unit(kind);
  };

  function axes(svg, x, y, box, xWords, yWords) {
    svg.append("rect").attr("class", "frame").attr("x", box.left).attr("y", box.top).attr("width", box.right - box.left).attr("height", box.bottom - box.top);
    for (const tick of y.ticks(5)) svg.append("line").attr("class", "grid").attr("x1", box.left).attr("x2", box.right).attr("y1", y(tick)).attr("y2", y(tick));
    svg.append("g").attr("class", "axis").attr("transform", "translate(0," + box.bottom + ")").call(d3.axisBottom(x).ticks(Math.max(3, Math.round((box.right - box.left) / 90))).tickSizeOuter(0));
    svg.append("g").attr("class", "axis").attr("transform", "translate(" + box.left + ",0)").call(d3.axisLeft(y).ticks(5).tickSizeOuter(0));
    svg.append("text").attr("class", "label").attr("x", box.right).attr("y", box.bottom + 34).attr("text-anchor", "end").text(xWords);
    svg.append("text").attr("class", "label").attr("x", box.left).attr("y", box.top - 8).text(yWords);
  }

  const settingsWords = (sweep, units, point) =>
    sweep.settings.map((s) => s.name + " " + (s.words ? s.words[s.values[point - 1]] : units.show(s.kind, s.values[point - 1], 3))).join(", ");

  // The share of bits that last longer, with its band, and when one, five and nine in ten have come to rework.
  dullcast.survivalChart = function (container, sweep, options = {}) {
    return chart(container, sweep, options, "survival", (svg, width, units) => {
      const curve = sweep.survival, height = 320, box = { left: 52, right: width - 16, top: 30, bottom: height - 46 };
      size(svg, width, height);
      const hours = (s) => units.convert("hours", s);
      const x = d3.scaleLinear().domain([0, hours(curve.seen_to) || 1]).range([box.left, box.right]);
      const y = d3.scaleLinear().domain([0, 100]).range([box.bottom, box.top]);
      axes(svg, x, y, box, "rotating hours", "percent of runs with no rework due yet");
      const at = [0].concat(curve.time, [curve.seen_to]);
      const steps = (values) => [1].concat(values, values.slice(-1).length ? values.slice(-1) : [1]);
      const low = steps(curve.low), high = steps(curve.high), share = steps(curve.share);
      svg.append("path").attr("class", "interval").attr("d", d3.area().curve(d3.curveStepAfter).x((_, k) => x(hours(at[k]))).y0((_, k) => y(100 * low[k])).y1((_, k) => y(100 * high[k]))(at));
      svg.append("path").attr("class", "line strong").style("stroke", dullcast.colours.line(0).colour).attr("d", d3.line().curve(d3.curveStepAfter).x((_, k) => x(hours(at[k]))).y((_, k) => y(100 * share[k]))(at));
      for (const one of sweep.life ? sweep.life.rotating_time : []) {
        if (one.value === null) continue;
        const py = y(100 * (1 - one.share)), low_ = one.low === null ? 0 : one.low, high_ = one.high === null ? curve.seen_to : one.high;
        svg.append("line").attr("class", "range").attr("x1", x(hours(low_))).attr("x2", x(hours(high_))).attr("y1", py).attr("y2", py);
        svg.append("circle").attr("class", "range-dot").attr("r", 4).attr("cx", x(hours(one.value))).attr("cy", py);
        const late = x(hours(one.value)) > box.right - 150;
        svg.append("text").attr("class", "mark-name").attr("x", x(hours(one.value)) + (late ? -8 : 8)).attr("y", py - 7).attr("text-anchor", late ? "end" : "start")
          .text(Math.round(100 * one.share) + "\u00a0% due by " + units.show("hours", one.value) + (one.high === null ? ", end open" : ""));
      }
      svg.attr("aria-label", "Share of runs with no rework due yet, over rotating hours, from " + curve.lives + " runs.");
    });
  };

  // Eight tenths of the runs over footage, and their middle. options.outcome: its name in sweep.course.bands.
  dullcast.courseChart = function (container, sweep, options = {}) {
    let outcome = options.outcome || sweep.course.bands[0].outcome;
    const figure = chart(container, sweep, options, "course", (svg, width, units) => {
      const course = sweep.course, band = course.bands.find((b) => b.outcome === outcome);
      const height = 320, box = { left: 58, right: width - 16, top: 30, bottom: height - 46 };
      size(svg, width, height);
      const metres = course.footage.map((m) => units.convert("depth", m)), of = (list) => list.map((v) => shown(units, band.kind, v));
      const low = of(band.low), middle = of(band.middle), high = of(band.high);
      const x = d3.scaleLinear().domain([0, metres[metres.length - 1]]).range([box.left, box.right]);
      const y = d3.scaleLinear().domain([Math.min(band.kind === "temperature" ? d3.min(low) : 0, d3.min(low)), d3.max(high)]).nice().range([box.bottom, box.top]);
      axes(svg, x, y, box, "drilled in all, " + units.unit("depth"), band.name + ", " + unitOf(units, sweep, band.kind));
      svg.append("path").attr("class", "interval").attr("d", d3.area().x((_, k) => x(metres[k])).y0((_, k) => y(low[k])).y1((_, k) => y(high[k]))(metres)).append("title").text("eight runs of ten");
      svg.append("path").attr("class", "line strong").style("stroke", dullcast.colours.line(0).colour).attr("d", d3.line().x((_, k) => x(metres[k])).y((_, k) => y(middle[k]))(metres)).append("title").text("the middle");
      svg.attr("aria-label", band.name + " over what is drilled: eight runs of ten, and the middle, of " + course.courses + " runs.");
    });
    figure.setOutcome = (next) => ((outcome = next), figure.redraw());
    return figure;
  };

  // Eight tenths of the draws of every point, and their middle, in one outcome. options.outcome: its name; options.most:
  // points told (the lowest middles).
  dullcast.bandChart = function (container, sweep, options = {}) {
    let outcome = options.outcome || sweep.bands[0].outcome;
    const figure = chart(container, sweep, options, "bands", (svg, width, units) => {
      const band = sweep.bands.find((b) => b.outcome === outcome);
      const known = band.points.filter((p) => p.middle !== null);
      const rising = outcome === "life" || outcome === "progress" ? -1 : 1;
      const points = known.sort((a, b) => rising * (a.middle - b.middle)).slice(0, options.most || 24);
      const narrow = width < 560, names = sweep.settings.length > 0, left = names ? (narrow ? 54 : Math.min(330, width * 0.36)) : 90;
      const row = 22, top = 14, height = top + row * Math.max(1, points.length) + 46;
      size(svg, width, height);
      const box = { left, right: width - 20, top, bottom: height - 42 };
      const values = points.flatMap((p) => [p.low, p.middle, p.high]).filter((v) => v !== null).map((v) => shown(units, band.kind, v));
      const x = d3.scaleLinear().domain(d3.extent(values)).nice().range([box.left + 8, box.right - 8]);
      if (x.domain()[0] === x.domain()[1]) x.domain([x.domain()[0] - 1, x.domain()[1] + 1]);
      svg.append("rect").attr("class", "frame").attr("x", box.left).attr("y", box.top).attr("width", box.right - box.left).attr("height", box.bottom - box.top);
      for (const tick of x.ticks(6)) svg.append("line").attr("class", "grid").attr("x1", x(tick)).attr("x2", x(tick)).attr("y1", box.top).attr("y2", box.bottom);
      svg.append("g").attr("class", "axis").attr("transform", "translate(0," + box.bottom + ")").call(d3.axisBottom(x).ticks(6).tickSizeOuter(0));
      svg.append("text").attr("class", "label").attr("x", box.right).attr("y", box.bottom + 34).attr("text-anchor", "end").text(band.name + ", " + unitOf(units, sweep, band.kind));
      points.forEach((p, k) => {
        const y = top + row * (k + 0.5), best = sweep.trade_off && sweep.trade_off.best === p.point;
        const name = names ? (narrow ? "point " + p.point : p.point + "  " + settingsWords(sweep, units, p.point)) : "all draws";
        svg.append("text").attr("class", best ? "value" : "label").attr("x", box.left - 8).attr("y", y).attr("text-anchor", "end").attr("dominant-baseline", "central").text(name);
        const place = (v) => x(shown(units, band.kind, v));
        svg.append("rect").attr("class", best ? "span best" : "span").attr("x", place(p.low)).attr("width", Math.max(1.5, place(p.high) - place(p.low))).attr("y", y - 6).attr("height", 12)
          .append("title").text(settingsWords(sweep, units, p.point) + ": eight draws of ten from " + units.plain(shown(units, band.kind, p.low)) + " to " + units.plain(shown(units, band.kind, p.high)) + ", " + p.draws + " draws");
        svg.append("line").attr("class", "middle").attr("x1", place(p.middle)).attr("x2", place(p.middle)).attr("y1", y - 9).attr("y2", y + 9);
      });
      if (!points.length) svg.append("text").attr("class", "label").attr("x", box.left + 12).attr("y", top + 15).text("No draw came to it.");
      svg.attr("aria-label", band.name + " over the draws of every point: eight draws of ten, and the middle.");
    });
    figure.setOutcome = (next) => ((outcome = next), figure.redraw());
    return figure;
  };

  // Which numbers and settings matter for one outcome. options.which: its place in sweep.sensitivities; options.most bars.
  dullcast.sensitivityChart = function (container, sweep, options = {}) {
    return chart(container, sweep, options, "sensitivity", (svg, width, units) => {
      const one = sweep.sensitivities[options.which || 0], factors = one.factors.filter((f) => f.value !== null && f.value !== undefined).slice(0, options.most || 10);
      const row = 23, top = 14, left = Math.min(240, width * 0.42), height = top + row * Math.max(1, factors.length) + 46;
      size(svg, width, height);
      const box = { left, right: width - 18, top, bottom: height - 42 };
      const values = factors.flatMap((f) => [f.value, f.low, f.high]).filter((v) => v !== null && v !== undefined).map((v) => shown(units, one.kind, v));
      const x = d3.scaleLinear().domain([Math.min(0, d3.min(values) || 0), Math.max(0, d3.max(values) || 1)]).nice().range([box.left, box.right]);
      svg.append("rect").attr("class", "frame").attr("x", box.left).attr("y", box.top).attr("width", box.right - box.left).attr("height", box.bottom - box.top);
      for (const tick of x.ticks(5)) svg.append("line").attr("class", "grid").attr("x1", x(tick)).attr("x2", x(tick)).attr("y1", box.top).attr("y2", box.bottom);
      svg.append("g").attr("class", "axis").attr("transform", "translate(0," + box.bottom + ")").call(d3.axisBottom(x).ticks(5).tickSizeOuter(0));
      const what = { elementary_effects: "moves it by, over its whole range", variance_shares: "share of the variance", rank_correlation: "rank correlation" }[one.how];
      const unit = unitOf(units, sweep, one.kind);
      svg.append("text").attr("class", "label").attr("x", box.right).attr("y", box.bottom + 34).attr("text-anchor", "end").text(what + (unit ? ", " + unit : ""));
      factors.forEach((f, k) => {
        const y = top + row * (k + 0.5), value = shown(units, one.kind, f.value);
        svg.append("text").attr("class", "label").attr("x", box.left - 8).attr("y", y).attr("text-anchor", "end").attr("dominant-baseline", "central").text(f.name.length > left / 6 ? f.name.slice(0, Math.floor(left / 6) - 1) + "\u2026" : f.name).append("title").text(f.name);
        svg.append("rect").attr("class", value < 0 ? "sense below" : "sense").attr("x", Math.min(x(0), x(value))).attr("width", Math.abs(x(value) - x(0))).attr("y", y - 7).attr("height", 14).append("title").text(f.name + ": " + units.plain(value));
        if (f.alone !== null) svg.append("rect").attr("class", "alone").attr("x", x(0)).attr("width", Math.max(0, x(f.alone) - x(0))).attr("y", y - 3).attr("height", 6);
        if (f.low !== null && f.high !== null && f.low !== undefined)
          svg.append("line").attr("class", "range").attr("x1", x(shown(units, one.kind, f.low))).attr("x2", x(shown(units, one.kind, f.high))).attr("y1", y).attr("y2", y);
      });
      if (!factors.length)
        svg.append("text").attr("class", "label").attr("x", box.left + 10).attr("y", top + 15).text("Not ranked: too few runs came to rework.");
      svg.attr("aria-label", "What matters for the " + one.name + ": " + factors.slice(0, 3).map((f) => f.name).join(", ") + " first.");
    });
  };

  // Cost against heat at every point, with the points that no other beats.
  dullcast.tradeOffChart = function (container, sweep, options = {}) {
    return chart(container, sweep, options, "trade-off", (svg, width, units) => {
      const trade = sweep.trade_off, points = trade.points.filter((p) => p.cost !== null && p.hot !== null);
      const height = 360, box = { left: 58, right: width - 20, top: 30, bottom: height - 46 };
      size(svg, width, height);
      const cost = (v) => units.convert("per_length", v), heat = (v) => units.convert("temperature", v);
      const errors = points.flatMap((p) => [p.cost - (p.cost_half_width || 0), p.cost + (p.cost_half_width || 0)]).map(cost);
      const x = d3.scaleLinear().domain(d3.extent(errors)).nice().range([box.left + 10, box.right - 10]);
      const limit = trade.limits.hottest_flat;
      const y = d3.scaleLinear().domain(d3.extent(points.map((p) => heat(p.hot)).concat(limit === null ? [] : [heat(limit)]))).nice().range([box.bottom - 10, box.top + 10]);
      axes(svg, x, y, box, "mean cost of hole, " + unitOf(units, sweep, "per_length"), "hottest flat that nine draws of ten stay below, " + units.unit("temperature"));
      if (limit !== null) svg.append("line").attr("class", "rule-line").attr("x1", box.left).attr("x2", box.right).attr("y1", y(heat(limit))).attr("y2", y(heat(limit)));
      const front = points.filter((p) => p.on_front).sort((a, b) => a.cost - b.cost);
      svg.append("path").attr("class", "front").attr("d", d3.line().x((p) => x(cost(p.cost))).y((p) => y(heat(p.hot)))(front));
      const chips = d3.max(points, (p) => p.chips) || 1;
      for (const p of points) {
        const px = x(cost(p.cost)), py = y(heat(p.hot)), best = trade.best === p.point;
        if (p.cost_half_width && (p.on_front || best)) svg.append("line").attr("class", "range thin").attr("x1", x(cost(p.cost - p.cost_half_width))).attr("x2", x(cost(p.cost + p.cost_half_width))).attr("y1", py).attr("y2", py);
        const r = 4 + 5 * Math.sqrt(Math.max(0, p.chips || 0) / chips);
        // Shapes beside colours: a diamond is the cheapest, a ring with a dot what is not told apart from it.
        const mark = best ? svg.append("path").attr("d", "M" + px + " " + (py - r - 3) + "l" + (r + 3) + " " + (r + 3) + "l" + -(r + 3) + " " + (r + 3) + "l" + -(r + 3) + " " + -(r + 3) + "z") : svg.append("circle").attr("cx", px).attr("cy", py).attr("r", r);
        mark.attr("class", best ? "point best" : p.on_front ? "point on-front" : "point").append("title").text("Point " + p.point + ": " + settingsWords(sweep, units, p.point) + "; " + p.within + " within the limits");
        if (p.like_best && !best) svg.append("circle").attr("class", "like-best").attr("cx", px).attr("cy", py).attr("r", 1.8);
        if (best || p.on_front) svg.append("text").attr("class", "mark-name").attr("x", px + r + 4).attr("y", py - 5).text(p.point);
      }
      svg.attr("aria-label", trade.best ? "Cost against heat. The cheapest point that keeps the limits is " + trade.best + ": " + settingsWords(sweep, units, trade.best) : "Cost against heat. No point keeps the limits.");
    });
  };
  dullcast.settingsWords = settingsWords;
})();
