// What a run's findings are called: where its heat stands, its headline numbers, and what differs from another run.
// needs lesson/controls.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const {controls} = dullcast.lessonControls;

  /// Where the hottest flat stands, with a sign that needs no colour.
  function zone(found) {
    if (found.hot >= found.marks.ruin) return {sign: "\u25cf", kind: "ruin", words: "past the second line, where diamond is lost"};
    if (found.hot >= found.marks.faster) return {sign: "\u25d0", kind: "faster", words: "past the first line, where diamond wears faster"};
    return {sign: "\u25cb", kind: "cool", words: "under the first line"};
  }

  /// Headline numbers: [name, value, note, kind].
  function tiles(scene, found, say) {
    const at = zone(found);
    const all = [["Hottest flat", say.T(found.hot), at.sign + " " + at.words, at.kind],
                 ["Progress", say.rate(found.rate), found.stalled ? "the bit does not drill" : ""],
                 ["Wear", say.wearLength(found.wear), found.wear > 0 ? `${say.wearPer} drilled, worst cutter ${found.wearCutter}` : ""],
                 ["Power at the bit", say.power(found.power), ""]];
    if (scene.chart.kind === "bevels") all[3] = ["Chipped edges", say.chipNumber(found.chips), "to be expected"];
    if (scene.chart.kind === "cost") all[3] = ["Bit and rig", say.money(found.endCost), "if pulled here"];
    if (scene.upset)
      all.splice(1, 3, ["First line", found.crossed.faster === null ? "not crossed" : say.seconds(found.crossed.faster), "after the stop"],
                 ["Second line", found.crossed.ruin === null ? "not crossed" : say.seconds(found.crossed.ruin), "after the stop"],
                 ["Tables ruined", String(found.ruinedCount), "in this hole"]);
    return all;
  }

  /// Sentences on what was changed between two runs and what came of it.
  function compared(scene, from, to, say) {
    const all = [];
    const changed = Object.keys(controls).filter((id) => from.settings[id] !== to.settings[id]);
    if (!changed.length) return all;
    all.push("You changed " + changed.map((id) => `${controls[id].name.toLowerCase()} from ` +
      `${controls[id].words(say, from.settings[id])} to ${controls[id].words(say, to.settings[id])}`).join(", ") + ".");
    const a = from.found, b = to.found;
    all.push(`The hottest flat went from ${say.T(a.hot)} to ${say.T(b.hot)}` +
             (b.stalled ? ", and the bit does not drill: its flats carry all the weight." :
              `, progress from ${say.rate(a.rate)} to ${say.rate(b.rate)}` +
              (a.wear > 0 && b.wear > 0 ? `, and wear by the hole drilled is ${say.times(b.wear / a.wear)} what it was.` : ".")));
    if (!scene.upset && b.film > 0) all.push("Steam covers a flat for part of the time, and steam cools badly.");
    if (b.lifted < 0.9 && !b.stalled) all.push(`The flow lifts only ${say.share(b.lifted)} of the cuttings.`);
    if (b.stalled && !a.stalled) all.push("With so little weight for so much flat the edges no longer bite.");
    return all;
  }

  dullcast.lessonTelling = {zone, tiles, compared};
})();
