// The lesson: goes through its scenes, takes predictions, runs the engine behind the sliders and says what it found.
// needs parts/shell.js parts/units.js parts/bit_view.js parts/engine.js lesson/words.js lesson/scenes.js
// needs lesson/findings.js lesson/controls.js lesson/runs.js lesson/telling.js lesson/lesson_chart.js lesson/player.js
// needs lesson/handout.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const {controls, setsOf, build} = dullcast.lessonControls;
  const {zone, tiles, compared} = dullcast.lessonTelling;
  const make = (...given) => dullcast.make(...given);
  const scenes = dullcast.lessonScenes, usual = dullcast.lessonUsual;
  const byId = (id) => document.getElementById(id);
  const data = dullcast.pageData("page-data");
  const stillness = window.matchMedia("(prefers-reduced-motion: reduce)");

  let say = dullcast.lessonWords(data.units === "si" ? "si" : "field");
  let index = 0;
  let presenting = false;
  let current = null;  // the run that is shown: {settings, view, found}
  let entry = 0;       // counts scenes entered, so that late answers are told from timely ones
  const states = scenes.map((scene) => ({
    settings: Object.assign({}, usual, scene.start), choice: null, open: false, shown: false, probes: null, beginning: null,
    over: scene.chart.over, moved: 0, best: null, window: 30,
  }));
  const runs = dullcast.lessonRuns(data);
  const run = runs.run;
  const text = (what, ...given) => (typeof what === "function" ? what(...given) : what);

  const list = (target, sentences) => target.replaceChildren(...sentences.map((words) => make("li", {}, words)));

  function trouble(problems) {
    byId("problem").textContent = problems.length ? "The engine cannot run this: " + problems.join(" ") : "";
  }

  // ---- what is seen of a run

  function showTiles(scene, found) {
    byId("tiles").replaceChildren(...tiles(scene, found, say).map(([name, value, note, kind]) =>
      make("div", {class: "tile" + (kind ? " " + kind : "")}, make("dt", {}, name),
           make("dd", {}, value, make("span", {class: "quiet"}, note)))));
  }

  let bit = null;
  function showBit(view, row) {
    if (bit) bit.setView(view, row);
    else bit = dullcast.bitView(byId("bit"), view, {units: dullcast.units(say.system), row, colourBy: "temperature", controls: false});
  }

  let pen = null;
  const player = dullcast.lessonPlayer({scene: () => scenes[index], state: () => states[index], current: () => current,
                                        say: () => say, pen: () => pen, bit: () => bit, redraw: () => current && showPicture()});
  /// Where the scene began on the axis that is shown; nowhere where that axis means something else by now.
  function beganAt(state) {
    const from = state.beginning;
    if (!from || !state.over) return null;
    const other = (state.over === "air" || state.over === "flow") && (from.settings.fluid === "air") !== (state.settings.fluid === "air");
    return other ? null : [from.settings[state.over], from.found];
  }

  function showPicture() {
    const scene = scenes[index], state = states[index];
    if (!current) return;
    const longSettings = Object.assign({}, state.settings, {feet: 500});
    pen = dullcast.lessonChart.draw({
      scene, target: byId("chart"), tableTarget: byId("table"), say, settings: current.settings, found: current.found,
      run: current.view, bit: current.view.bit, over: state.over, control: controls[state.over], began: beganAt(state),
      // Before the prediction only what is there: the curve would give the question away.
      known: (settings) => (state.open ? runs.known(scene, settings) : undefined), longView: runs.viewOf(scene, longSettings),
      window: player.seconds(),
    });
    player.showNow();
  }

  function showRun() {
    const scene = scenes[index], state = states[index], {found, view} = current;
    showTiles(scene, found);
    const at = zone(found);
    byId("state").textContent = at.sign + " Hottest flat " + say.T(found.hot) + ", cutter " + found.hotCutter + ": " + at.words + ".";
    byId("state").className = "state " + at.kind;
    byId("bit-words").textContent = `The bit from below, every cutter in the colour of its flat's temperature` +
      (scene.upset ? "." : ", at the hottest moment of this stretch.");
    showBit(view, found.peak);
    showPicture();
    if (state.shown) showTried();
    byId("command").textContent = "dullcast run lesson.yaml \\\n" +
      setsOf(state.settings, scene).map((set) => `    --set "${set}"`).join(" \\\n");
  }

  // ---- what happened, in words made from the numbers

  function showTried() {
    const scene = scenes[index], state = states[index];
    if (!current) return;
    const from = state.beginning;
    const told = from ? compared(scene, from, current, say) : [];
    const more = scene.now && (told.length || scene.upset || scene.id === "pull")
      ? scene.now(current.found, state.probes || {marks: current.found.marks}, say, state.best) : [];
    const all = told.concat(more);
    byId("tried").hidden = all.length === 0;
    list(byId("tried-list"), all);
  }

  function showAnswer() {
    const scene = scenes[index], state = states[index];
    const shown = state.shown && state.probes;
    byId("happened").hidden = !shown;
    byId("commit").textContent = state.open ? "Show what happens" : "That is my prediction";
    byId("commit").hidden = state.shown;
    byId("predict-first").hidden = state.open;
    const right = shown ? scene.right(state.probes) : null;
    byId("choices").querySelectorAll("label").forEach((label) => {
      const id = label.dataset.choice;
      label.classList.toggle("right", right === id);
      label.classList.toggle("mine", state.choice === id && state.open);
      label.querySelector(".tag").textContent =
        (right === id ? "\u2713 what the engine finds" : "") + (state.choice === id && state.open ? (right === id ? ", and your prediction" : "your prediction") : "");
      label.querySelector("input").disabled = state.open;
    });
    if (!shown) return;
    const words = text(scene.choices.find((c) => c.id === right).words, say);
    byId("verdict").textContent = state.choice === null ? `The engine finds: ${words}.`
      : state.choice === right ? `You predicted it: ${words}.` : `Not as predicted. The engine finds: ${words}.`;
    list(byId("told"), scene.told(state.probes, say));
    byId("rule").textContent = text(scene.rule, say, state.probes.marks);
    showTried();
  }

  // ---- sliders

  let built = {};
  let wantedRun = null, running = false, movedAt = 0, lastMove = 0;

  function changed(id, value, settled) {
    const state = states[index], scene = scenes[index];
    state.settings = Object.assign({}, state.settings, {[id]: value});
    if (id === "fluid") {
      state.over = state.over === "flow" || state.over === "air" ? (value === "air" ? "air" : "flow") : state.over;
      buildControls();
    } else if (scene.chart.kind === "curve" && dullcast.lessonChart.places[id] && !scene.chart.second) {
      state.over = id;
    }
    if (built[id]) built[id].show(value, say);
    lastMove = performance.now();
    if (!movedAt) movedAt = lastMove;
    wantedRun = {entry, settled};
    runNewest();
    if (settled) state.moved += 1;
  }

  async function runNewest() {
    if (!wantedRun || running) return;
    running = true;
    const asked = wantedRun, scene = scenes[index], state = states[index];
    wantedRun = null;
    const began = movedAt;
    movedAt = 0;
    // A bit that burns takes long to follow; say that it is being worked out.
    const late = setTimeout(() => document.body.classList.add("working"), 300);
    try {
      const result = await run(scene, state.settings, "slider");
      if (result && asked.entry === entry) {
        trouble([]);
        current = result;
        if (scene.upset) {
          player.forget();
        }
        if (scene.id === "yours" && state.open && result.found.hot < result.found.marks.faster &&
            (!state.best || result.found.rate > state.best.rate))
          state.best = result.found;
        showRun();
        if (asked.settled) {
          byId("loud").textContent = byId("state").textContent + " Progress " + say.rate(result.found.rate) + ".";
          if (state.open && !state.shown && state.moved >= 3) reveal();
        }
        dullcast.lesson.took = performance.now() - began;
      }
    } catch (problems) {
      if (!Array.isArray(problems)) throw problems;
      trouble(problems);
    } finally {
      clearTimeout(late);
      document.body.classList.remove("working");
      running = false;
      if (wantedRun) requestAnimationFrame(runNewest);
      else fill();
    }
  }

  function buildControls() {
    const scene = scenes[index], state = states[index];
    const gas = state.settings.fluid === "air";
    const swap = (id) => (id === "flow" && gas ? "air" : id);
    const first = scene.controls.map(swap);
    const others = Object.keys(controls).filter((id) => !first.includes(id) && id !== "seconds" && id !== "feet" &&
                                                        id !== (gas ? "flow" : "air"));
    built = {};
    const place = (target, ids) => target.replaceChildren(...ids.map((id) => {
      built[id] = build(id, say, state.settings[id], !state.open, changed);
      return built[id].node;
    }));
    place(byId("controls"), first);
    place(byId("other-controls"), others);
    byId("back-to-start").disabled = !state.open;
  }

  // ---- runs for the picture, while nothing else is asked

  let filling = false;
  async function fill() {
    if (filling) return;
    filling = true;
    try {
      for (;;) {
        // While a slider is being dragged nothing may stand in its way.
        while (performance.now() - lastMove < 400) await new Promise((go) => setTimeout(go, 100));
        const scene = scenes[index], state = states[index], now = entry;
        if (running || wantedRun || !current) return;
        if (!state.open) return;
        const missing = dullcast.lessonChart.wanted(scene, state.settings, state.over).find((s) =>
          runs.known(scene, s) === undefined || (scene.chart.kind === "cost" && runs.known(scene, s) && !runs.viewOf(scene, s)));
        if (!missing) return;
        try {
          await run(scene, missing);
        } catch (problems) {
          if (!Array.isArray(problems)) throw problems;  // refused: a gap in the curve
        }
        if (now === entry && !running && !wantedRun) showPicture();
      }
    } finally {
      filling = false;
    }
  }

  // ---- going through the scenes

  function steps() {
    byId("steps").replaceChildren(...scenes.map((scene, k) => {
      const item = document.createElement("li"), button = document.createElement("button");
      button.type = "button";
      button.textContent = k + 1;
      button.title = scene.title;
      button.setAttribute("aria-label", `Scene ${k + 1}: ${scene.title}` + (states[k].shown ? " (done)" : ""));
      if (k === index) button.setAttribute("aria-current", "step");
      if (states[k].shown) button.classList.add("done");
      button.addEventListener("click", () => go(k));
      item.appendChild(button);
      return item;
    }));
  }

  function showWords() {
    const scene = scenes[index], state = states[index];
    byId("count").textContent = `Scene ${index + 1} of ${scenes.length}`;
    byId("title").textContent = scene.title;
    byId("scene").setAttribute("aria-label", `Scene ${index + 1} of ${scenes.length}: ${scene.title}`);
    byId("lead").textContent = text(scene.lead, say, Object.assign({}, usual, scene.start));
    byId("question").textContent = text(scene.question, say);
    byId("try").textContent = scene.try;
    byId("choices").replaceChildren(...scene.choices.map((choice) => {
      const label = document.createElement("label"), input = document.createElement("input");
      const words = document.createElement("span"), tag = document.createElement("span");
      input.type = "radio";
      input.name = "choice-" + scene.id;
      input.value = choice.id;
      input.checked = state.choice === choice.id;
      input.addEventListener("change", () => {
        state.choice = choice.id;
        byId("commit").disabled = false;
      });
      label.dataset.choice = choice.id;
      words.textContent = text(choice.words, say);
      tag.className = "tag";
      label.append(input, words, tag);
      return label;
    }));
    byId("commit").disabled = state.choice === null && !state.open;
    byId("back").disabled = index === 0;
    byId("next").disabled = index === scenes.length - 1;
    document.title = scene.title + " \u2013 why heat kills cutters";
  }

  async function go(k) {
    if (k < 0 || k >= scenes.length) return;
    // Whoever listens hears the new scene; whoever looks begins at its top.
    if (entry > 0) byId("scene").focus({preventScroll: true});
    player.stop();
    index = k;
    entry += 1;
    const now = entry, scene = scenes[k], state = states[k];
    current = null;
    wantedRun = null;
    location.hash = scene.id;
    steps();
    showWords();
    showAnswer();
    buildControls();
    player.prepare();
    document.body.classList.toggle("closed", !state.open);
    window.scrollTo(0, 0);
    try {
      const start = Object.assign({}, usual, scene.start);
      const first = await run(scene, start);
      if (now !== entry) return;
      about(first.view);
      state.beginning = first;
      current = runs.same(scene, state.settings, start) ? first : await run(scene, state.settings);
      if (now !== entry) return;
      hideUntilOpen();
      showRun();
      if (!state.probes) {
        const probes = {start: first.found, marks: first.found.marks};
        for (const name of Object.keys(scene.probes)) {
          probes[name] = (await run(scene, Object.assign({}, start, scene.probes[name]))).found;
          if (now !== entry) return;
        }
        state.probes = probes;
      }
      showAnswer();
      fill();
    } catch (problems) {
      if (!Array.isArray(problems)) throw problems;
      trouble(problems);
    }
  }

  /// Before the prediction the present state may be seen, but not what gives the answer away.
  function hideUntilOpen() {
    const scene = scenes[index], state = states[index];
    const secret = !state.open && (scene.upset || scene.chart.kind === "cutters" && scene.id === "outer" || scene.chart.kind === "cost");
    document.body.classList.toggle("secret", Boolean(secret));
  }

  function open() {
    const state = states[index];
    state.open = true;
    document.body.classList.remove("closed");
    hideUntilOpen();
    Object.values(built).forEach((one) => one.lock(false));
    byId("back-to-start").disabled = false;
    player.prepare();
    showAnswer();
    if (current) showRun();
    fill();
  }

  function reveal() {
    const state = states[index];
    state.shown = true;
    if (scenes[index].upset) player.all();
    steps();
    showAnswer();
    if (presenting) byId("happened").scrollIntoView({block: "end", behavior: stillness.matches ? "auto" : "smooth"});
  }

  function advance() {
    const state = states[index];
    if (!state.open) open();
    else if (!state.shown) reveal();
    else go(index + 1);
  }

  function present(yes) {
    presenting = yes;
    document.body.classList.toggle("presenting", yes);
    byId("presenter").setAttribute("aria-pressed", String(yes));
    if (current) showRun();
  }

  // ---- what the page says of itself, and the handout

  let aboutDone = false;
  function about(view) {
    if (aboutDone) return;
    aboutDone = true;
    list(byId("estimates"), view.estimates);
    list(byId("cautions"), view.cautions);
    byId("made-by").textContent = view.made_by + ". Invented ground. This page fetches nothing and keeps nothing.";
    handout(view);
  }

  function handout(view) {
    const marks = {faster: view.marks.find((m) => m.name === "faster_wear").temperature,
                   ruin: view.marks.find((m) => m.name === "ruin").temperature};
    dullcast.lessonHandout(byId("handout"), scenes, usual, say, marks, view.estimates, view.cautions, text);
    handout.view = view;
  }

  function save() {
    runs.changed(scenes[index], states[index].settings).then((answer) => {
      if (!answer.ok) {
        trouble(answer.problems);
        return;
      }
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([answer.text], {type: "text/yaml"}));
      link.download = "lesson_" + scenes[index].id + ".yaml";
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    });
  }

  function keys(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const on = event.target, inField = on.matches("input, select, textarea, pre");
    const key = event.key;
    if (key === "PageDown" || (key === "ArrowRight" && !inField)) {
      event.preventDefault();
      if (presenting && key === "PageDown") advance();
      else go(index + 1);
    } else if (key === "PageUp" || (key === "ArrowLeft" && !inField)) {
      event.preventDefault();
      go(index - 1);
    } else if (key === " " && !inField && !on.matches("button, summary, a")) {
      if (!presenting) return;
      event.preventDefault();
      advance();
    } else if ((key === "p" || key === "P") && !inField) {
      present(!presenting);
    } else if (key === "Escape" && presenting) {
      present(false);
    }
  }

  function changeUnits() {
    say = dullcast.lessonWords(say.system === "si" ? "field" : "si");
    if (bit) bit.setUnits(dullcast.units(say.system));
    byId("units").setAttribute("aria-pressed", String(say.system === "si"));
    showWords();
    showAnswer();
    buildControls();
    if (current) showRun();
    if (handout.view) handout(handout.view);
  }

  function setTheme(dark) {
    document.documentElement.dataset.theme = dark ? "dark" : "light";
    byId("theme").setAttribute("aria-pressed", String(dark));
  }

  dullcast.lesson = {go, advance, took: 0, state: () => states[index], current: () => current,
                     right: () => scenes[index].right(states[index].probes)};

  byId("commit").addEventListener("click", () => (states[index].open ? reveal() : open()));
  byId("back").addEventListener("click", () => go(index - 1));
  byId("next").addEventListener("click", () => go(index + 1));
  byId("back-to-start").addEventListener("click", () => {
    const state = states[index];
    state.settings = Object.assign({}, usual, scenes[index].start);
    buildControls();
    movedAt = performance.now();
    wantedRun = {entry, settled: true};
    if (!running) requestAnimationFrame(runNewest);
  });
  byId("save").addEventListener("click", save);
  byId("units").addEventListener("click", changeUnits);
  byId("theme").addEventListener("click", () => setTheme(document.documentElement.dataset.theme !== "dark"));
  setTheme(window.matchMedia("(prefers-color-scheme: dark)").matches);
  byId("presenter").addEventListener("click", () => present(!presenting));
  byId("print").addEventListener("click", () => window.print());
  document.addEventListener("keydown", keys);
  let resized = 0;
  window.addEventListener("resize", () => {
    cancelAnimationFrame(resized);
    resized = requestAnimationFrame(() => { if (current) showPicture(); });
  });

  const asked = scenes.findIndex((scene) => "#" + scene.id === location.hash);
  dullcast.engine.start().then(() => go(asked < 0 ? 0 : asked), (failure) => trouble([failure.message]));
})();
