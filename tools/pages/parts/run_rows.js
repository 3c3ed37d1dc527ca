// What several figures need of a run's rows: which belong to a hole, what of them to draw, and what happened when.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  dullcast.runRows = function (view) {
    const rows = view.rows;
    const count = rows.depth.length;
    const cutters = view.bit.cutters.length;
    const byCutter = rows.cutters;

    function over(name, better) {
      const lists = byCutter[name];
      const found = new Array(count);
      for (let k = 0; k < count; ++k) {
        let best = null;
        for (let i = 0; i < cutters; ++i) {
          const value = lists[i][k];
          if (value !== null && (best === null || better(value, best))) best = value;
        }
        found[k] = best;
      }
      return found;
    }

    const kept = {};
    const once = (name, make) => (kept[name] = kept[name] || make());
    const chipChance = () => {
      const one = new Array(count), any = new Array(count);
      for (let k = 0; k < count; ++k) {
        let sum = 0, most = 0;
        for (let i = 0; i < cutters; ++i) {
          const hazard = byCutter.chip_hazard[i][k] || 0;
          sum += hazard;
          most = Math.max(most, hazard);
        }
        one[k] = -Math.expm1(-most);
        any[k] = -Math.expm1(-sum);
      }
      return { one, any };
    };

    // First and last row (from 0) of each hole, by its number.
    const holes = new Map();
    for (let k = 0; k < count; ++k) {
      const hole = rows.hole[k];
      if (!holes.has(hole)) holes.set(hole, [k, k]);
      holes.get(hole)[1] = k;
    }

    return {
      count,
      holes,
      hottest: () => once("hottest", () => over("flat_temperature", (a, b) => a > b)),
      coolest: () => once("coolest", () => over("flat_temperature", (a, b) => a < b)),
      worst: () => once("worst", () => over("worn_height", (a, b) => a > b)),
      chipOne: () => once("chips", chipChance).one,
      chipAny: () => once("chips", chipChance).any,
      // The cutter (from 0) whose value is greatest at row k.
      greatest(name, k) {
        let best = 0;
        for (let i = 1; i < cutters; ++i) if (byCutter[name][i][k] > byCutter[name][best][k]) best = i;
        return best;
      },
      // Whether cutter i (from 0) is gone, or its diamond table, at row k.
      lost: (i, k) => view.bit.cutters[i].starts_lost || happened("cutter_lost", i, k),
      tableGone: (i, k) =>
        view.bit.cutters[i].starts_without_table || happened("table_lost", i, k) || happened("table_ruined", i, k),
    };

    function happened(kind, i, k) {
      const until = rows.time[k];
      return view.events.some((e) => e.kind === kind && e.cutter === i + 1 && e.time <= until);
    }
  };

  // Of points (y[k], x[k]), k from `first` to `last`, those that a line needs at `pixels` of height: all where there are
  // few; otherwise from every pixel the first, the least, the greatest and the last, so that no peak is lost.
  dullcast.thinned = function (y, x, first, last, y0, y1, pixels) {
    const kept = [];
    if (last - first < 3 * pixels) {
      for (let k = first; k <= last; ++k) kept.push(k);
      return kept;
    }
    let pixel = null, begins = 0, low = 0, high = 0;
    const flush = (ends) => {
      for (const k of [begins, Math.min(low, high), Math.max(low, high), ends])
        if (kept.length === 0 || kept[kept.length - 1] < k) kept.push(k);
    };
    for (let k = first; k <= last; ++k) {
      const here = Math.floor(((y[k] - y0) / (y1 - y0)) * pixels);
      if (here !== pixel) {
        if (pixel !== null) flush(k - 1);
        pixel = here;
        begins = low = high = k;
      } else {
        if (x[k] < x[low]) low = k;
        if (x[k] > x[high]) high = k;
      }
    }
    flush(last);
    return kept;
  };
})();
