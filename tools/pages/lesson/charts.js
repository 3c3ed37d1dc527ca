// Small pictures of the lesson, as SVG: a strip of seconds, a curve over a slider, bars, a curve of cost.
// Each draws what it is given into a container and gives back the numbers it drew as a table's rows, for those who
// cannot see it. Nothing here knows the engine.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const space = "http://www.w3.org/2000/svg";

  function make(tag, attributes, parent, text) {
    const node = document.createElementNS(space, tag);
    for (const key in attributes) node.setAttribute(key, attributes[key]);
    if (text !== undefined) node.textContent = text;
    if (parent) parent.appendChild(node);
    return node;
  }

  /// About `count` round numbers from low to high.
  function ticks(low, high, count) {
    const span = high - low;
    if (!(span > 0)) return [low];
    const rough = span / Math.max(1, count);
    const power = Math.pow(10, Math.floor(Math.log10(rough)));
    const step = [1, 2, 5, 10].map((k) => k * power).find((s) => s >= rough * 0.999);
    const all = [];
    for (let t = Math.ceil(low / step - 1e-9) * step; t <= high + 1e-9 * span; t += step) all.push(t);
    return all;
  }

  const plain = (value) =>
    Math.abs(value) >= 1000 ? Math.round(value).toLocaleString("en-US") : String(parseFloat(value.toPrecision(3)));

  function scaleOf(low, high, from, to, logarithmic) {
    const f = logarithmic ? Math.log10 : (v) => v;
    const a = f(low), b = f(high);
    return (value) => from + ((f(value) - a) / (b - a || 1)) * (to - from);
  }

  /// An empty frame of the container's width: axes, grid, bands and named lines.
  function frame(container, options) {
    const wide = Math.max(280, container.clientWidth || 560);
    const tall = options.height || Math.max(230, Math.min(430, wide * 0.78));
    const size = parseFloat(getComputedStyle(container).fontSize) || 16;
    const em = size * 0.82;
    const left = em * 4.4, right = em * 1.2, top = em * 1.6, bottom = em * 3.4;
    container.textContent = "";
    const root = make("svg", {viewBox: `0 0 ${wide} ${tall}`, width: "100%", class: "picture", role: "img",
                              "aria-label": options.label, "font-size": em}, container);
    const x = scaleOf(options.x.low, options.x.high, left, wide - right, options.x.logarithmic);
    const y = scaleOf(options.y.low, options.y.high, tall - bottom, top, options.y.logarithmic);
    const inside = (v, axis) => v >= Math.min(axis.low, axis.high) && v <= Math.max(axis.low, axis.high);
    (options.bands || []).forEach((band) => {
      const from = Math.max(band.from, options.y.low), to = Math.min(band.to, options.y.high);
      if (!(to > from)) return;
      make("rect", {x: left, width: wide - right - left, y: y(to), height: y(from) - y(to),
                    class: "band " + band.kind}, root);
    });
    const yTicks = options.y.ticks || ticks(options.y.low, options.y.high, 5);
    yTicks.filter((t) => inside(t, options.y)).forEach((t) => {
      make("line", {x1: left, x2: wide - right, y1: y(t), y2: y(t), class: "grid"}, root);
      make("text", {x: left - em * 0.4, y: y(t) + em * 0.35, "text-anchor": "end"}, root, plain(t));
    });
    const xTicks = options.x.ticks || ticks(options.x.low, options.x.high, wide > 420 ? 6 : 4);
    xTicks.filter((t) => inside(t, options.x)).forEach((t) => {
      make("text", {x: x(t), y: tall - bottom + em * 1.3, "text-anchor": "middle"}, root, plain(t));
      make("line", {x1: x(t), x2: x(t), y1: tall - bottom, y2: tall - bottom + 4, class: "axis"}, root);
    });
    make("line", {x1: left, x2: wide - right, y1: tall - bottom, y2: tall - bottom, class: "axis"}, root);
    make("text", {x: (left + wide - right) / 2, y: tall - em * 0.7, "text-anchor": "middle", class: "axis-name"}, root,
         options.x.name);
    make("text", {x: em * 0.3, y: em * 0.95, class: "axis-name"}, root, options.y.name);
    (options.lines || []).filter((line) => inside(line.at, options.y)).forEach((line) => {
      make("line", {x1: left, x2: wide - right, y1: y(line.at), y2: y(line.at), class: "mark " + line.kind}, root);
      // At the right end, or where the picture says that nothing is in the way.
      const place = options.namesAt === undefined ? {x: wide - right - 4, "text-anchor": "end"}
                                                  : {x: left + options.namesAt * (wide - right - left), "text-anchor": "start"};
      make("text", Object.assign(place, {y: y(line.at) - em * 0.35, class: "mark-name"}), root, line.words);
    });
    return {root, x, y, em, left, right, top, bottom, wide, tall};
  }

  const pathOf = (points) => points.map((p, k) => (k ? "L" : "M") + p[0].toFixed(1) + " " + p[1].toFixed(1)).join("");

  /// Seconds from left to right, drawn up to `now`; update(now) moves the pen without drawing all anew.
  function strip(container, options) {
    const f = frame(container, options);
    const traces = options.traces.map((trace) => {
      const node = make("path", {class: "trace " + trace.kind, fill: "none"}, f.root);
      const points = trace.values.map((v, k) => [f.x(options.times[k]), f.y(v)]);
      return {node, points};
    });
    (options.flags || []).forEach((flag) => {
      make("line", {x1: f.x(flag.at), x2: f.x(flag.at), y1: f.top, y2: f.tall - f.bottom, class: "flag"}, f.root);
      make("text", {x: f.x(flag.at) - 5, y: f.tall - f.bottom - f.em * 0.5, "text-anchor": "end", class: "mark-name"}, f.root, flag.words);
    });
    const crossings = (options.crossings || []).map((c) => {
      const group = make("g", {class: "crossing"}, f.root);
      make("circle", {cx: f.x(c.at), cy: f.y(c.level), r: f.em * 0.42}, group);
      make("text", {x: f.x(c.at) + f.em * 0.7, y: f.y(c.level) + f.em * 1.35}, group, c.words);
      return {group, at: c.at};
    });
    const pen = make("circle", {r: f.em * 0.4, class: "pen"}, f.root);
    function update(now) {
      let last = 0;
      while (last + 1 < options.times.length && options.times[last + 1] <= now) ++last;
      traces.forEach((trace, k) => {
        const points = trace.points.slice(0, last + 1);
        const a = options.times[last], b = options.times[last + 1];
        if (b > a && now > a) {
          const share = Math.min(1, (now - a) / (b - a)), p = trace.points[last], q = trace.points[last + 1];
          points.push([p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]);
        }
        trace.node.setAttribute("d", pathOf(points));
        if (k === 0) {
          const end = points[points.length - 1];
          pen.setAttribute("cx", end[0]);
          pen.setAttribute("cy", end[1]);
        }
      });
      crossings.forEach((c) => { c.group.style.display = now >= c.at ? "" : "none"; });
    }
    update(options.now === undefined ? Infinity : options.now);
    return {update};
  }

  /// Curves through points; the place where the learner stands is a ring, where the scene began a small square.
  function curve(container, options) {
    const f = frame(container, options);
    options.curves.forEach((one) => {
      const points = one.points.filter((p) => Number.isFinite(p[1])).map((p) => [f.x(p[0]), f.y(p[1])]);
      if (points.length > 1) make("path", {d: pathOf(points), fill: "none", class: "trace " + one.kind}, f.root);
      points.forEach((p) => make("circle", {cx: p[0], cy: p[1], r: f.em * 0.22, class: "dot " + one.kind}, f.root));
      if (one.name && points.length) {
        const end = points[one.nameAt === "start" ? 0 : points.length - 1];
        make("text", {x: end[0] - (one.nameAt === "start" ? -6 : 6), y: end[1] - f.em * 0.7,
                      "text-anchor": one.nameAt === "start" ? "start" : "end", class: "curve-name"}, f.root, one.name);
      }
    });
    (options.flags || []).forEach((flag) => {
      make("line", {x1: f.x(flag.at), x2: f.x(flag.at), y1: f.top, y2: f.tall - f.bottom, class: "flag"}, f.root);
      const late = f.x(flag.at) > f.wide * 0.7;
      make("text", {x: f.x(flag.at) + (late ? -4 : 4), y: f.top + f.em * (flag.row || 1),
                    "text-anchor": late ? "end" : "start", class: "mark-name"}, f.root, flag.words);
    });
    if (options.began && Number.isFinite(options.began[1])) {
      const p = options.began, half = f.em * 0.36;
      make("rect", {x: f.x(p[0]) - half, y: f.y(p[1]) - half, width: 2 * half, height: 2 * half, class: "began"}, f.root);
    }
    if (options.here && Number.isFinite(options.here[1])) {
      const px = f.x(options.here[0]), py = f.y(options.here[1]);
      make("line", {x1: px, x2: px, y1: py, y2: f.tall - f.bottom, class: "drop"}, f.root);
      make("circle", {cx: px, cy: py, r: f.em * 0.55, class: "here"}, f.root);
    }
    return {};
  }

  /// Upright bars with their value over them; `chosen` is drawn stronger.
  function bars(container, options) {
    const count = options.bars.length;
    const f = frame(container, Object.assign({}, options, {x: {low: 0, high: count, ticks: [], name: options.xName}}));
    const room = f.x(1) - f.x(0);
    options.bars.forEach((bar, k) => {
      const top = Math.min(f.y(bar.value), f.y(options.y.low));
      make("rect", {x: f.x(k) + room * 0.14, width: room * 0.72, y: top, height: Math.max(1, f.tall - f.bottom - top),
                    class: "column" + (bar.chosen ? " chosen" : "")}, f.root);
      const small = room < f.em * 2.2;
      if (!small || bar.chosen)
        make("text", {x: f.x(k + 0.5), y: top - f.em * 0.35, "text-anchor": "middle",
                      class: "column-value" + (bar.chosen ? " chosen" : "")}, f.root, bar.words);
      make("text", {x: f.x(k + 0.5), y: f.tall - f.bottom + f.em * 1.2, "text-anchor": "middle"}, f.root, bar.name);
      if (bar.below)
        make("text", {x: f.x(k + 0.5), y: f.tall - f.bottom + f.em * 2.3, "text-anchor": "middle", class: "quiet"}, f.root,
             bar.below);
    });
    return {};
  }

  dullcast.lessonCharts = {strip, curve, bars, ticks};
})();
