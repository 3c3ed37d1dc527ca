// Which picture a scene shows beside its bit, and the numbers behind it as a table. Curves need runs of their own, which
// are asked for one after another and only while no slider waits; see `fill`.
// needs lesson/charts.js lesson/findings.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  const places = {
    weight: [2000, 4000, 6000, 7000, 8000, 9000, 10000, 12000, 14000, 16000],
    speed: [40, 60, 80, 90, 100, 120, 140, 160, 180, 200],
    flow: [2, 5, 8, 10, 12, 15, 20, 30, 45, 60, 90],
    air: [100, 200, 300, 400, 500, 600, 800],
    wear: [0, 0.2, 0.4, 0.6, 0.8, 1, 1.4, 1.8, 2.4, 3],
  };
  const bevels = [0, 0.2, 0.4, 0.6];
  const leachSpeeds = [60, 80, 100, 110, 120, 130, 140, 160];

  /// Runs that the picture needs beside the present one: a list of settings.
  function wanted(scene, settings, over) {
    if (scene.chart.kind === "curve")
      return places[over].map((value) => Object.assign({}, settings, {[over]: value}));
    if (scene.chart.kind === "bevels") return bevels.map((bevel) => Object.assign({}, settings, {bevel}));
    if (scene.chart.kind === "wear_over_heat")
      return leachSpeeds.flatMap((speed) => ["no", "yes"].map((leached) => Object.assign({}, settings, {speed, leached})));
    if (scene.chart.kind === "cost") return [Object.assign({}, settings, {feet: 500})];
    return [];
  }

  function table(target, head, rows) {
    target.textContent = "";
    const node = document.createElement("table");
    const line = (cells, tag) => {
      const tr = document.createElement("tr");
      cells.forEach((cell) => {
        const td = document.createElement(tag);
        if (tag === "th") td.scope = "col";
        td.textContent = cell;
        tr.appendChild(td);
      });
      return tr;
    };
    const top = document.createElement("thead"), body = document.createElement("tbody");
    top.appendChild(line(head, "th"));
    rows.forEach((row) => body.appendChild(line(row, "td")));
    node.append(top, body);
    target.appendChild(node);
  }

  /// Lines and bands of temperature, on an axis that reaches past the hottest shown.
  function heatAxis(say, marks, most) {
    const low = say.degrees(273.15), ruin = say.degrees(marks.ruin);
    const high = Math.max(say.degrees(marks.ruin) * 1.08, say.degrees(most) * 1.06);
    return {
      y: {low, high, name: "hottest flat, " + say.unit("temperature")},
      bands: [{from: say.degrees(marks.faster), to: ruin, kind: "faster"}, {from: ruin, to: high, kind: "ruin"}],
      lines: [{at: say.degrees(marks.faster), kind: "faster", words: say.T(marks.faster) + ": wears faster"},
              {at: ruin, kind: "ruin", words: say.T(marks.ruin) + ": diamond is lost"}],
    };
  }

  function drawCurve(view) {
    const {target, tableTarget, say, scene, settings, found, began, over, control, known} = view;
    const xs = places[over];
    const points = xs.map((value) => [value, known(Object.assign({}, settings, {[over]: value}))]);
    const have = points.filter((p) => p[1]);
    const x = {low: control.shown(say, xs[0]), high: control.shown(say, xs[xs.length - 1]),
               name: control.name + (control.unit ? ", " + control.unit(say) : "")};
    const axis = heatAxis(say, found.marks, Math.max(found.hot, ...have.map((p) => p[1].hot)));
    const twice = scene.chart.second === "wearRate";
    const height = twice ? Math.max(170, target.clientWidth * 0.44) : undefined;
    const first = document.createElement("div"), second = document.createElement("div");
    target.replaceChildren(...(twice ? [first, second] : [first]));
    const merge = (list, value) =>
      list.concat([[settings[over], found]]).sort((a, b) => a[0] - b[0]).filter((p) => p[1]).map((p) => [control.shown(say, p[0]), value(p[1])]);
    const hot = (f) => say.degrees(f.hot);
    dullcast.lessonCharts.curve(first, Object.assign(axis, {
      x, height, namesAt: scene.chart.namesAt, label: `Hottest flat over ${control.name.toLowerCase()}; now ${say.T(found.hot)} at ${control.words(say, settings[over])}.`,
      curves: [{kind: "one", points: merge(have, hot)}],
      here: [control.shown(say, settings[over]), hot(found)],
      began: began ? [control.shown(say, began[0]), hot(began[1])] : null,
    }));
    if (twice) {
      const wear = (f) => (f.wear > 0 ? say.wearRate(f.wear) : NaN);
      const all = have.map((p) => wear(p[1])).concat(wear(found)).filter((v) => v > 0);
      if (all.length)
        dullcast.lessonCharts.curve(second, {
          x, height, y: Object.assign(decades(Math.min(...all), Math.max(...all)), {name: "wear by the hole drilled, " + say.wearUnit}),
          label: "Wear by the hole drilled over " + control.name.toLowerCase() + ".",
          curves: [{kind: "two", points: merge(have, wear)}], here: [control.shown(say, settings[over]), wear(found)],
        });
    }
    table(tableTarget, [control.name, "hottest flat", "progress", "wear by the hole drilled"],
          have.map((p) => [control.words(say, p[0]), say.T(p[1].hot), say.rate(p[1].rate), say.wear(p[1].wear)]));
  }

  /// A logarithmic axis of whole decades.
  function decades(low, high) {
    const from = Math.floor(Math.log10(low)), to = Math.max(from + 1, Math.ceil(Math.log10(high)));
    const ticks = [];
    for (let k = from; k <= to; ++k) ticks.push(Math.pow(10, k));
    return {low: Math.pow(10, from), high: Math.pow(10, to), logarithmic: true, ticks};
  }

  function drawWearOverHeat(view) {
    const {target, tableTarget, say, settings, found, known} = view;
    const series = ["no", "yes"].map((leached) =>
      leachSpeeds.map((speed) => [speed, known(Object.assign({}, settings, {speed, leached}))]).filter((p) => p[1] && p[1].wear > 0));
    const all = series.flat().map((p) => p[1]).concat(found.wear > 0 ? [found] : []);
    if (!all.length) return;
    const wears = all.map((f) => say.wearRate(f.wear)), hots = all.map((f) => say.degrees(f.hot));
    const points = (list) => list.map((p) => [say.degrees(p[1].hot), say.wearRate(p[1].wear)]).sort((a, b) => a[0] - b[0]);
    const {faster, ruin} = found.marks;
    dullcast.lessonCharts.curve(target, {
      x: {low: Math.min(...hots, say.degrees(faster)) * 0.9, high: Math.max(...hots, say.degrees(ruin)) * 1.04,
          name: "hottest flat, " + say.unit("temperature")},
      y: Object.assign(decades(Math.min(...wears), Math.max(...wears)), {name: "wear by the hole drilled, " + say.wearUnit}),
      label: `Wear by the hole drilled over the temperature of the hottest flat; now ${say.wear(found.wear)} at ${say.T(found.hot)}.`,
      curves: [{kind: "one", points: points(series[0]), name: "not leached"},
               {kind: "two", points: points(series[1]), name: "leached"}],
      flags: [{at: say.degrees(faster), words: say.T(faster), row: 1}, {at: say.degrees(ruin), words: say.T(ruin), row: 1}],
      here: [say.degrees(found.hot), say.wearRate(found.wear)],
    });
    table(tableTarget, ["rpm", "not leached: flat", "wear", "leached: flat", "wear"],
          leachSpeeds.map((speed) => {
            const of = (k) => (series[k].find((p) => p[0] === speed) || [0, null])[1];
            const a = of(0), b = of(1);
            return [speed, a ? say.T(a.hot) : "", a ? say.wear(a.wear) : "", b ? say.T(b.hot) : "", b ? say.wear(b.wear) : ""];
          }));
  }

  function drawCutters(view) {
    const {target, tableTarget, say, found, flats, bit} = view;
    const values = flats || found.flats;
    const most = Math.max(...values), axis = heatAxis(say, found.marks, most);
    const high = most < found.marks.faster ? say.degrees(found.marks.faster) * 1.08 : axis.y.high;
    dullcast.lessonCharts.bars(target, Object.assign(axis, {
      y: Object.assign(axis.y, {high, name: "flat, " + say.unit("temperature")}),
      xName: "cutter, from the centre outward",
      label: `Temperature of every cutter's flat; hottest is cutter ${found.hotCutter} at ${say.T(most)}.`,
      bars: values.map((T, k) => ({name: k + 1, value: say.degrees(T), words: Math.round(say.degrees(T)), chosen: T === most})),
    }));
    table(tableTarget, ["cutter", "from the axis", "flat"],
          values.map((T, k) => [k + 1, say.length(bit.cutters[k].radius), say.T(T)]));
  }

  function drawBevels(view) {
    const {target, tableTarget, say, settings, known} = view;
    const all = bevels.map((bevel) => [bevel, known(Object.assign({}, settings, {bevel}))]).filter((p) => p[1]);
    if (!all.length) return;
    const most = Math.max(...all.map((p) => p[1].chips));
    dullcast.lessonCharts.bars(target, {
      y: {low: 0, high: most > 0 ? most * 1.18 : 1, name: "chipped edges to be expected"}, xName: "",
      label: "Chipped edges to be expected, by bevel.",
      bars: all.map((p) => ({name: p[0] > 0 ? say.mm(p[0]) : "sharp", below: say.rate(p[1].rate), value: p[1].chips,
                             words: say.chipNumber(p[1].chips), chosen: p[0] === settings.bevel})),
    });
    table(tableTarget, ["bevel", "chipped edges", "progress", "hottest flat"],
          all.map((p) => [p[0] > 0 ? say.mm(p[0]) : "sharp", say.chipNumber(p[1].chips), say.rate(p[1].rate), say.T(p[1].hot)]));
  }

  function drawCost(view) {
    const {target, tableTarget, say, settings, found, longView, known} = view;
    const long = known(Object.assign({}, settings, {feet: 500}));
    if (!long || !longView) return;
    const rows = longView.rows, layer = longView.layers.length, top = longView.layers[layer - 1].top;
    const points = [];
    rows.depth.forEach((depth, k) => {
      if (rows.layer[k] === layer && rows.cost_per_metre[k] !== null)
        points.push([say.depthNumber(depth - top), say.moneyNumber(rows.cost_per_metre[k]), k]);
    });
    const costs = points.map((p) => p[1]), least = Math.min(...costs);
    const here = [say.depthNumber(found.drilled), say.moneyNumber(found.endCost)];
    const flags = [];
    if (long.cheapest) flags.push({at: say.depthNumber(long.cheapest.feet), words: "cheapest", row: 1});
    if (long.dueFeet !== null) flags.push({at: say.depthNumber(long.dueFeet), words: "rework due", row: 2.2});
    if (long.beyondFeet !== null) flags.push({at: say.depthNumber(long.beyondFeet), words: "past repair", row: 3.4});
    dullcast.lessonCharts.curve(target, {
      x: {low: 0, high: say.depthNumber(500 * 0.3048), name: "of this rock drilled, " + say.unit("depth")},
      y: {low: least * 0.7, high: Math.max(least * 2.6, say.moneyNumber(long.endCost) * 1.05), name: "bit and rig, $" + say.unit("per_length")},
      label: `Cost of bit and rig by the hole drilled; cheapest at ${long.cheapest ? say.depth(long.cheapest.feet) : "no place"}.`,
      curves: [{kind: "one", points: points.filter((p, k) => p[1] <= Math.max(least * 2.6, say.moneyNumber(long.endCost) * 1.05))}],
      flags, here,
    });
    const step = Math.max(1, Math.floor(points.length / 12));
    table(tableTarget, ["drilled", "bit and rig"],
          points.filter((p, k) => k % step === 0).map((p) => [say.depth(rows.depth[p[2]] - top), say.money(rows.cost_per_metre[p[2]])]));
  }

  /// The seconds of a stopped pump. Returns what moves the pen.
  function drawSeconds(view) {
    const {target, tableTarget, say, found, run, window: shown} = view;
    if (!found.upset) return null;
    const rows = run.rows, hot = dullcast.lessonFindings.hottest(run);
    const from = found.upset.from, until = from + shown;
    const times = [], values = [], second = [];
    rows.time.forEach((t, k) => {
      if (t < from - 2 || t > until) return;
      times.push(t - from);
      values.push(say.degrees(hot[k]));
      second.push(say.degrees(rows.fluid_temperature[k]));
    });
    if (times.length < 2) return null;
    const axis = heatAxis(say, found.marks, Math.max(...values.map((v) => say.kelvin(v))));
    const crossings = [];
    if (found.crossed.faster !== null && found.crossed.faster <= shown)
      crossings.push({at: found.crossed.faster, level: say.degrees(Math.max(found.marks.faster, found.before)), words: say.seconds(found.crossed.faster)});
    if (found.crossed.ruin !== null && found.crossed.ruin <= shown)
      crossings.push({at: found.crossed.ruin, level: say.degrees(found.marks.ruin), words: say.seconds(found.crossed.ruin)});
    const back = found.upset.until - from;
    const pen = dullcast.lessonCharts.strip(target, Object.assign(axis, {
      x: {low: 0, high: shown, name: "seconds after the pump stopped"}, namesAt: 0.16, times: times.map((t) => Math.max(0, t)),
      traces: [{kind: "one", values}, {kind: "water", values: second}], crossings,
      flags: back <= shown ? [{at: back, words: "pump back"}] : [],
      label: "Hottest flat over the seconds after the pump stopped. " +
             (found.crossed.faster === null ? "It stays under the first line."
                                            : `First line after ${say.seconds(found.crossed.faster)}.`) +
             (found.crossed.ruin === null ? "" : ` Second line after ${say.seconds(found.crossed.ruin)}.`),
    }));
    const step = Math.max(1, Math.floor(times.length / 20));
    table(tableTarget, ["seconds", "hottest flat"],
          times.map((t, k) => [t, k]).filter((p, k) => k % step === 0).map((p) => [p[0].toFixed(1), say.T(say.kelvin(values[p[1]]))]));
    return pen;
  }

  const kinds = {curve: drawCurve, wear_over_heat: drawWearOverHeat, cutters: drawCutters, bevels: drawBevels, cost: drawCost,
                 seconds: drawSeconds};
  const draw = (view) => kinds[view.scene.chart.kind](view);

  dullcast.lessonChart = {draw, wanted, places};
})();
