// The lesson's runs: asks the engine, and keeps what it found so that nothing is drilled twice.
// needs parts/engine.js lesson/controls.js lesson/findings.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // data: {scenario, file} of the page. Gives {run, known, viewOf, changed}.
  dullcast.lessonRuns = function (data) {
    const {setsOf} = dullcast.lessonControls;
    const {findings} = dullcast.lessonFindings;
    const kept = new Map();   // findings by what was set; null where the engine refused
    const views = new Map();  // the last few whole views
    const most = 40;
    const keyOf = (scene, settings) => setsOf(settings, scene).join("|");
    // All of them where seconds are told, since a line is crossed between two rows; elsewhere one a foot would do.
    const rowsFor = (scene) => (scene.upset ? 3000 : 120);

    /// Runs the scene with these settings, or gives what is known of them: {settings, view, found}. Null when a newer
    /// request of that slot overtook it. Throws the engine's list of problems where it refuses.
    async function run(scene, settings, slot) {
      const key = keyOf(scene, settings);
      if (views.has(key)) return {settings, view: views.get(key), found: kept.get(key)};
      const answer = await dullcast.engine.ask({ask: "run", scenario: data.scenario, file: data.file, sets: setsOf(settings, scene),
                                                units: "field", slot, rows: rowsFor(scene)});
      if (answer === null) return null;
      if (!answer.ok) {
        kept.set(key, null);
        throw answer.problems;
      }
      const found = findings(answer.view);
      kept.set(key, found);
      views.set(key, answer.view);
      if (views.size > most) views.delete(views.keys().next().value);
      return {settings, view: answer.view, found};
    }

    return {
      run,
      /// Findings that are there already; undefined where nobody asked, null where the engine refused.
      known: (scene, settings) => kept.get(keyOf(scene, settings)),
      viewOf: (scene, settings) => views.get(keyOf(scene, settings)),
      same: (scene, one, other) => keyOf(scene, one) === keyOf(scene, other),
      /// The scenario's text with the settings written into it.
      changed: (scene, settings) => dullcast.engine.ask({ask: "change", scenario: data.scenario, file: data.file, sets: setsOf(settings, scene)}),
    };
  };
})();
