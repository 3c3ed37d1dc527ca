// What a scene says of a run: a few numbers taken out of the engine's view of it (engine/pages/run_view.hpp), SI units.
// Only picks, adds up and interpolates between rows that the engine gave; no law of drilling stands here.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  const mark = (view, name) => {
    const found = view.marks.find((m) => m.name === name);
    return found ? found.temperature : NaN;
  };

  const greatest = (values) => values.reduce((best, v, k) => (v !== null && v > (best < 0 ? -Infinity : values[best]) ? k : best), -1);

  function at(rows, column, k) {
    return rows.cutters[column].map((values) => values[k]);
  }

  /// Hottest flat of each row.
  function hottest(view) {
    const flats = view.rows.cutters.flat_temperature;
    return view.rows.depth.map((_, k) => {
      let most = -Infinity;
      for (let c = 0; c < flats.length; ++c) if (flats[c][k] !== null && flats[c][k] > most) most = flats[c][k];
      return most;
    });
  }

  /// When a level was crossed upward after `from`, between two rows by a straight line; null if it never was.
  function crossing(times, values, from, level, until) {
    for (let k = 1; k < times.length; ++k) {
      if (times[k] < from || times[k] > until) continue;
      if (values[k] < level) continue;
      if (values[k - 1] >= level && times[k - 1] >= from) return times[k - 1];
      if (values[k - 1] >= level || times[k - 1] < from) return Math.max(from, times[k - 1]);
      return times[k - 1] + ((level - values[k - 1]) / (values[k] - values[k - 1])) * (times[k] - times[k - 1]);
    }
    return null;
  }

  function ofUpset(view, hot, found) {
    const times = view.rows.time;
    const begins = view.events.find((e) => e.kind === "upset_begins");
    const ends = view.events.find((e) => e.kind === "upset_ends");
    if (!begins) return;
    const from = begins.time, until = ends ? ends.time : times[times.length - 1];
    let first = times.findIndex((t) => t >= from);
    found.upset = {from, until, first};
    found.before = hot[Math.max(0, first - 1)];
    const since = (t) => (t === null ? null : t - from);
    found.crossed = {faster: since(crossing(times, hot, from, found.marks.faster, until)),
                     ruin: since(crossing(times, hot, from, found.marks.ruin, until))};
    const ruined = view.events.find((e) => e.kind === "table_ruined" && e.time >= from);
    found.ruined = ruined ? ruined.time - from : null;
    const quench = view.events.filter((e) => e.kind === "quench");
    found.quench = 0;
    if (quench.length) {
      const k = times.findIndex((t) => t >= quench[0].time);
      found.quench = hot[k < 0 ? hot.length - 1 : k];
    }
    const story = view.events.filter((e) => e.time > from + 0.01 && e.time < until && e.kind !== "rework_due" && e.kind !== "table_ruined")
      .slice(0, 5);
    found.storyOf = (say) => story.map((e) => `After ${say.seconds(e.time - from)}: ${e.words}`);
    // Of the stop itself, the hottest moment.
    let most = -Infinity;
    for (let k = first; k < times.length && times[k] <= until; ++k) most = Math.max(most, hot[k]);
    if (most > 0) found.hot = most;
  }

  function ofLife(view, passage, found) {
    const rows = view.rows;
    found.cheapest = null;
    found.endCost = NaN;
    if (rows.cost_per_metre && passage) {
      rows.cost_per_metre.forEach((cost, k) => {
        if (rows.layer[k] !== passage.layer || cost === null) return;
        const feet = rows.depth[k] - passage.top;
        if (feet > 0 && (found.cheapest === null || cost < found.cheapest.cost)) found.cheapest = {feet, cost};
        found.endCost = cost;
      });
    }
    const within = (milestone) => (milestone && passage ? milestone.depth - passage.top : null);
    found.dueFeet = within(view.rework_due);
    found.dueWords = view.rework_due ? view.rework_due.rule_words : "";
    found.beyondFeet = within(view.beyond_repair);
    found.beyondWords = view.beyond_repair ? view.beyond_repair.rule_words : "";
    found.repair = view.repair ? view.repair.words : "";
  }

  /// Everything the lesson shows of a run. `wear` is metres worn off the worst cutter by each metre of the rock looked at,
  /// `rate` m/s, `power` W at the bit, temperatures K.
  function findings(view) {
    const rows = view.rows, hot = hottest(view);
    const passage = view.passages[view.passages.length - 1];
    const reached = passage && passage.layer === view.layers.length;
    const found = {marks: {faster: mark(view, "faster_wear"), ruin: mark(view, "ruin")},
                   cutters: view.bit.cutters.length, bitRadius: view.bit.diameter / 2};
    let peak = -1;
    hot.forEach((T, k) => {
      if (rows.layer[k] === view.layers.length && (peak < 0 || T > hot[peak])) peak = k;
    });
    if (peak < 0) peak = hot.length - 1;
    const flats = at(rows, "flat_temperature", peak);
    const hottestCutter = greatest(flats);
    const coolest = flats.reduce((best, T, k) => (T !== null && T < flats[best] ? k : best), 0);
    const radius = (k) => view.bit.cutters[k].radius;
    found.peak = peak;
    found.flats = flats;
    found.hot = reached ? passage.hottest_flat : hot[peak];
    found.hotCutter = hottestCutter + 1;
    found.hotRadius = radius(hottestCutter);
    found.coolCutter = coolest + 1;
    found.coolRadius = radius(coolest);
    found.cool = flats[coolest];
    found.drilled = reached ? passage.bottom - passage.top : 0;
    found.rate = reached && passage.rotating_time > 0 ? passage.rate_of_penetration : 0;
    found.wear = reached && found.drilled > 0 ? passage.wear_gain / found.drilled : NaN;
    found.wearCutter = reached ? passage.wear_cutter : null;
    found.power = 2 * Math.PI * (reached ? passage.torque : rows.torque[peak]) * rows.rotary_speed[peak];
    found.chips = reached ? passage.chip_hazard : 0;
    found.chipChance = reached ? passage.chip_probability : 0;
    found.chipCutter = reached ? passage.chip_cutter : null;
    found.film = reached ? passage.time_in_film : 0;
    found.lifted = reached ? passage.lifted_share : 1;
    const end = rows.depth.length - 1;
    found.worn = at(rows, "worn_height", end).reduce((most, v) => Math.max(most, v || 0), 0);
    found.damage = at(rows, "heat_damage", end).reduce((most, v) => Math.max(most, v || 0), 0);
    found.ruinedCount = view.events.filter((e) => e.kind === "table_ruined").length;
    found.stalled = view.ended_by === "stopped_drilling" || found.rate === 0;
    found.crossed = {faster: null, ruin: null};
    found.ruined = null;
    found.quench = 0;
    ofLife(view, reached ? passage : null, found);
    ofUpset(view, hot, found);
    return found;
  }

  dullcast.lessonFindings = {findings, hottest};
})();
