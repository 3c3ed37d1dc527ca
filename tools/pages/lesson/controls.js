// The lesson's settings: their sliders, their words, and the changes of the scenario that they stand for.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // shown: the slider's number in the reader's units; words: with its unit.
  const controls = {
    weight: {name: "Weight on bit", low: 1000, high: 16000, step: 250, shown: (say, v) => say.lbfNumber(v),
             words: (say, v) => say.lbf(v), unit: (say) => say.unit("weight")},
    speed: {name: "Rotary speed", low: 30, high: 200, step: 5, shown: (say, v) => v, words: (say, v) => v + " rpm",
            unit: () => "rpm"},
    flow: {name: "Flow", low: 2, high: 90, step: 1, shown: (say, v) => say.gpmNumber(v), words: (say, v) => say.gpm(v),
           unit: (say) => say.unit("flow")},
    air: {name: "Free air", low: 100, high: 800, step: 20, shown: (say, v) => say.airNumber(v), words: (say, v) => say.air(v),
          unit: (say) => say.unit("gas_flow")},
    wear: {name: "Worn off every cutter", low: 0, high: 3, step: 0.05, shown: (say, v) => say.mmNumber(v),
           words: (say, v) => (v > 0 ? say.mm(v) : "new"), unit: (say) => say.unit("length")},
    bevel: {name: "Bevel of the edges", low: 0, high: 0.6, step: 0.2, shown: (say, v) => say.mmNumber(v),
            words: (say, v) => (v > 0 ? say.mm(v) + " at 45\u00b0" : "none, sharp")},
    feet: {name: "Pull after", low: 25, high: 500, step: 25, shown: (say, v) => say.feetNumber(v),
           words: (say, v) => say.feet(v) + " of it"},
    seconds: {name: "Noticed after", low: 5, high: 600, step: 5, shown: (say, v) => v,
              words: (say, v) => (v < 60 ? v + " s" : Math.floor(v / 60) + " min" + (v % 60 ? " " + (v % 60) + " s" : ""))},
    rock: {name: "Rock", choices: [["shale", "shale"], ["limestone", "limestone"], ["sandstone", "sandstone"],
                                   ["hard_sandstone", "hard sandstone"], ["quartzite", "quartzite"], ["granite", "granite"],
                                   ["gravelly_sand", "gravelly sand"], ["gravel", "gravel"],
                                   ["cherty_limestone", "cherty limestone"]]},
    fluid: {name: "Drilling fluid", choices: [["water", "water"], ["bentonite_mud", "bentonite mud"],
                                              ["polymer_mud", "polymer mud"], ["air", "air"]]},
    leached: {name: "Leached tables", choices: [["no", "no"], ["yes", "yes, 0.2 mm deep"]]},
  };
  Object.keys(controls).forEach((id) => {
    const one = controls[id];
    if (one.choices) one.words = (say, v) => one.choices.find((c) => c[0] === v)[1];
  });

  /// The changes of lesson.yaml, as `dullcast run --set` takes them.
  function setsOf(settings, scene) {
    const gas = settings.fluid === "air";
    const flow = gas ? settings.air + " ft3/min" : settings.flow + " gal/min";
    const sets = [`layers.1.rock=${settings.rock}`, `plan.1.weight_on_bit=${settings.weight} lbf`,
                  `plan.1.rotary_speed=${settings.speed} rpm`, `plan.1.flow=${flow}`, `bit.starting_wear=${settings.wear} mm`,
                  "bit.cutter.chamfer=" + (settings.bevel > 0 ? `${settings.bevel} mm x 45 deg` : "none")];
    if (settings.fluid !== "water") sets.push(`fluid.name=${settings.fluid}`);
    if (gas) sets.push(`plan.0.flow=${flow}`);
    if (settings.leached === "yes") sets.push("bit.cutter.leach_depth=0.2 mm", "bit.cutter.leach_side_depth=0.2 mm");
    if (settings.feet !== 2) sets.push(`layers.1.bottom=${130 + settings.feet} ft`);
    if (scene.stopAt) sets.push("repeat.stop_at=" + scene.stopAt);
    if (scene.upset) sets.push(`upsets=[{from: 131 ft, lasts: ${settings.seconds} s, pump: off}]`);
    return sets;
  }

  /// One control as a labelled element; `changed(id, value, settled)` hears of every move.
  function build(id, say, value, locked, changed) {
    const one = controls[id], row = document.createElement("div");
    row.className = "control";
    const label = document.createElement("label");
    label.textContent = one.name;
    label.htmlFor = "set-" + id;
    let input, out = null;
    if (one.choices) {
      input = document.createElement("select");
      one.choices.forEach((choice) => {
        const option = document.createElement("option");
        option.value = choice[0];
        option.textContent = choice[1];
        input.appendChild(option);
      });
      input.addEventListener("change", () => changed(id, input.value, true));
    } else {
      input = document.createElement("input");
      input.type = "range";
      input.min = one.low;
      input.max = one.high;
      input.step = one.step;
      out = document.createElement("output");
      out.htmlFor = input.id;
      const number = () => parseFloat(parseFloat(input.value).toFixed(3));
      input.addEventListener("input", () => changed(id, number(), false));
      input.addEventListener("change", () => changed(id, number(), true));
    }
    input.id = "set-" + id;
    input.disabled = locked;
    row.append(label, input);
    if (out) row.appendChild(out);
    function show(v, words) {
      if (String(input.value) !== String(v)) input.value = v;
      const text = one.words(words, v);
      if (out) {
        out.textContent = text;
        input.setAttribute("aria-valuetext", text);
      }
    }
    show(value, say);
    return {node: row, show, lock: (yes) => { input.disabled = yes; }};
  }

  dullcast.lessonControls = {controls, setsOf, build};
})();
