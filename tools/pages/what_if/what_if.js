// The what-if page: a scenario's text, up to three sets of changes of it, and what the engine makes of each.
// needs parts/shell.js parts/tracks.js parts/bit_view.js parts/card.js parts/engine.js
// needs what_if/fields.js what_if/resolved.js what_if/places.js what_if/form.js what_if/results.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const make = (...given) => dullcast.make(...given);
  const {read, names} = dullcast.whatIfResolved;
  const {fieldsOf} = dullcast.whatIfFields;
  const byId = (id) => document.getElementById(id);
  const data = dullcast.pageData("page-data");
  const library = dullcast.pageData("library-data");
  const most = 3;

  let text = data.scenario, file = data.file;
  let groups = [];            // the form's, of the text as it stands
  let variants = [];          // {name, sets: Map path -> value as written, view, answered key, took, words}
  let chosen = 0;             // whose form is shown
  let pictured = 0;           // whose pictures are shown
  let tracks = null, bit = null;
  let units = null;
  let textNumber = 0;         // counts changes of the text

  const lists = {
    bits: names(library.files["bits.yaml"] || ""), rocks: names(library.files["rocks.yaml"] || ""),
    grades: names(library.files["grades.yaml"] || ""), lots: names(library.files["lots.yaml"] || ""),
  };

  const setsOf = (variant) => Array.from(variant.sets, ([path, value]) => `${path}=${value}`);
  const keyOf = (variant) => textNumber + "|" + setsOf(variant).join("|");
  const ask = (what, variant, more) =>
    dullcast.engine.ask(Object.assign({ask: what, scenario: text, file, sets: setsOf(variant), units: "field", rows: 600}, more));

  // ---- the form

  const {showProblems, showWarnings} = dullcast.whatIfPlaces(() => file);
  const form = dullcast.whatIfForm(byId("form"), {
    units: () => units,
    changed: (variant) => {
      showChanges();
      runSoon(variant);
    },
  });

  function showForm() {
    form.show(groups, variants[chosen], variants[0]);
    byId("form").setAttribute("aria-labelledby", "tab-" + chosen);
    showChanges();
  }

  function showChanges() {
    const variant = variants[chosen], all = setsOf(variant);
    byId("changes").textContent = all.length ? "Changes of the text: " + all.join("; ") : "";
    byId("undo").disabled = all.length === 0;
    byId("write").disabled = all.length === 0;
    byId("about-tab").textContent = chosen === 0 ? "A is what the others are held against. Add B to compare." :
      `${variant.name} starts as A does; what you change in it is marked.`;
  }

  function showTabs() {
    const tabs = variants.map((variant, k) => {
      const tab = make("button", {type: "button", role: "tab", id: "tab-" + k, "aria-selected": String(k === chosen), "aria-controls": "form",
                                  tabindex: k === chosen ? "0" : "-1"}, variant.name);
      tab.addEventListener("click", () => choose(k));
      tab.addEventListener("keydown", (event) => {
        const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
        if (!step) return;
        choose((k + step + variants.length) % variants.length);
        byId("tab-" + chosen).focus();
      });
      return tab;
    });
    byId("tabs").replaceChildren(...tabs);
    document.querySelectorAll(".tab-tools").forEach((node) => node.remove());
    const tools = make("div", {class: "row tab-tools"});
    if (variants.length < most) {
      const add = make("button", {type: "button", id: "add", class: "small"}, `Compare with ${"ABC"[variants.length]}`);
      add.addEventListener("click", () => {
        variants.push({name: "ABC"[variants.length], sets: new Map(variants[chosen].sets)});
        choose(variants.length - 1);
        runSoon(variants[variants.length - 1]);
        byId("tab-" + chosen).focus();
      });
      tools.append(add);
    }
    if (chosen > 0) {
      const remove = make("button", {type: "button", id: "remove", class: "small"}, `Take ${variants[chosen].name} away`);
      remove.addEventListener("click", () => {
        variants.splice(chosen, 1);
        variants.forEach((variant, k) => { variant.name = "ABC"[k]; });
        pictured = Math.min(pictured, variants.length - 1);
        choose(Math.min(chosen, variants.length - 1));
        showResults();
        showPictures();
      });
      tools.append(remove);
    }
    byId("tabs").after(tools);
    const select = byId("shown");
    select.replaceChildren(...variants.map((variant, k) => make("option", {value: k}, variant.name)));
    select.value = pictured;
  }

  function choose(k) {
    chosen = k;
    showTabs();
    showForm();
    if (variants[k].problems) showProblems(variants[k].problems, variants[k].name);
    showWarnings(variants[k].warnings || []);
  }

  // ---- runs

  let queue = [], running = false, timer = 0;
  function runSoon(variant) {
    if (!queue.includes(variant)) queue.push(variant);
    clearTimeout(timer);
    timer = setTimeout(runAll, 60);
    status();
  }

  async function runAll() {
    if (running) return;
    running = true;
    try {
      while (queue.length) {
        const variant = queue.shift();
        if (!variants.includes(variant)) continue;
        const key = keyOf(variant);
        if (variant.key === key) continue;
        variant.words = "drilling\u2026";
        status();
        showResults();
        const answer = await ask("run", variant, {slot: "run " + variant.name});
        if (answer === null || key !== keyOf(variant)) {
          if (!queue.includes(variant)) queue.push(variant);
          continue;
        }
        take(variant, key, answer);
      }
    } catch (failure) {
      showProblems([failure.message]);
    } finally {
      running = false;
      status();
      headline();
    }
  }

  function take(variant, key, answer) {
    variant.key = key;
    variant.words = "";
    variant.problems = answer.ok ? null : answer.problems;
    if (answer.ok) {
      variant.view = answer.view;
      variant.took = answer.took_ms;
      variant.warnings = answer.warnings;
      if (variant === variants[chosen]) showWarnings(answer.warnings);
      about(answer.view);
    } else {
      variant.view = null;
      variant.words = "cannot be run";
    }
    const wrong = variants.find((v) => v.problems);
    showProblems(wrong ? wrong.problems : [], wrong ? wrong.name : "");
    showResults();
    if (variants.indexOf(variant) === pictured) showPictures();
    dullcast.whatIf.took = answer.took_ms;
  }

  function status() {
    // What waits to be drilled is not drilled: figures still shown are of before the change.
    const busy = variants.filter((v) => queue.includes(v) || v.words === "drilling\u2026");
    const last = variants[chosen] && variants[chosen].took;
    byId("status").textContent = busy.length ? "Drilling " + busy.map((v) => v.name).join(" and ") + "\u2026"
      : last !== undefined ? `Drilled in ${last < 950 ? Math.round(last) + " ms" : (last / 1000).toFixed(1) + " s"}.` : "";
    byId("forecast").disabled = busy.length > 0;
    // A band takes about so many runs; see analysis::forecast.
    byId("forecast-words").textContent = last !== undefined && last * 20 > 5000
      ? `takes about ${last * 20 > 90000 ? Math.round(last / 3000) + " minutes" : Math.round(last / 50) + " seconds"}; the page works on` : "";
  }

  function headline() {
    const all = variants.filter((v) => v.view);
    const words = all.map((v) => (variants.length > 1 ? v.name + ": " : "") +
      (v.view.rework_due ? "rework is due in hole " + v.view.rework_due.hole + " of " + v.view.holes_planned : "rework is " + v.view.due_words.replace(/^not in/, "not due in"))).join(". ") + (all.length ? "." : "");
    byId("headline").textContent = words ? words[0].toUpperCase() + words.slice(1) : "";
  }

  function showResults() {
    dullcast.whatIfResults(byId("comparison"), variants.map((v) => ({name: v.name, view: v.view, words: v.words, sets: setsOf(v)})), units);
  }

  // ---- pictures and card

  function showPictures() {
    const variant = variants[pictured], view = variant && variant.view;
    byId("pictures").hidden = !view;
    byId("card-part").hidden = !view;
    if (!view) return;
    const holes = view.holes.filter((h) => h.first_row !== null).map((h) => h.number);
    byId("hole").replaceChildren(...holes.map((n) => make("option", {value: n}, n)));
    const onRow = (row) => {
      if (bit) bit.update(row);
      byId("bit-title").textContent = `The bit at ${units.show("depth", view.rows.depth[row])} in hole ${view.rows.hole[row]}`;
    };
    if (bit) bit.setView(view, 0);
    else bit = dullcast.bitView(byId("bit"), view, {units});
    byId("tracks").replaceChildren();
    tracks = dullcast.tracks(byId("tracks"), view, {units, onRow});
    byId("hole").value = tracks.hole();
    byId("card").replaceChildren();
    byId("print-card").hidden = true;
    byId("card-words").textContent = "";
  }

  async function makeCard() {
    const variant = variants[pictured];
    byId("card-words").textContent = "Working out the least flow of every layer; this takes a while\u2026";
    const answer = await ask("card", variant);
    byId("card-words").textContent = "";
    if (!answer.ok) {
      showProblems(answer.problems, variant.name);
      return;
    }
    dullcast.card(byId("card"), answer.card, {units});
    byId("print-card").hidden = false;
    cardDrawn = answer.card;
  }
  let cardDrawn = null;

  async function findBand() {
    const variant = variants[pictured], key = keyOf(variant);
    byId("forecast").disabled = true;
    byId("status").textContent = `Working out how sure ${variant.name} is\u2026`;
    try {
      const answer = await ask("forecast", variant);
      if (answer && key === keyOf(variant)) {
        const took = variant.took;
        take(variant, key, answer);
        variant.took = took;
      }
    } finally {
      status();
      headline();
    }
  }

  // ---- the text

  async function readText() {
    textNumber += 1;
    const now = textNumber;
    const answer = await dullcast.engine.ask({ask: "check", scenario: text, file, slot: "check"});
    if (answer === null || now !== textNumber) return;
    if (!answer.ok) {
      showProblems(answer.problems);
      byId("text-part").open = true;
      return;
    }
    showProblems([]);
    const resolved = read(answer.resolved);
    const own = {rocks: Object.keys(resolved.rocks || {}), grades: Object.keys(resolved.grades || {}), lots: Object.keys(resolved.lots || {})};
    const both = (a, b) => a.concat(b.filter((x) => !a.includes(x)));
    groups = fieldsOf(resolved, gasOf(resolved), {bits: lists.bits, rocks: both(lists.rocks, own.rocks), grades: both(lists.grades, own.grades), lots: both(lists.lots, own.lots)});
    byId("page-title").textContent = "What if: " + (answer.title || file);
    document.title = "What if: " + (answer.title || file);
    const paths = new Set(groups.flatMap((g) => g.fields.map((f) => f.path)));
    variants.forEach((variant) => {
      for (const path of Array.from(variant.sets.keys())) if (!paths.has(path)) variant.sets.delete(path);
      delete variant.key;
    });
    choose(chosen);
    variants.forEach(runSoon);
  }

  function gasOf(resolved) {
    const name = resolved.fluid && resolved.fluid.name;
    const own = resolved.fluids && resolved.fluids[name];
    return (own && own.kind === "gas") || name === "air";
  }

  function newText(next, name) {
    text = next;
    file = name || file;
    byId("text").value = text;
    return readText();
  }

  async function load(handed) {
    if (!handed) return;
    if (handed.size > 4 * 1024 * 1024) {
      showProblems([`${handed.name} is larger than a scenario may be (4 MiB)`]);
      return;
    }
    variants = [{name: "A", sets: new Map()}];
    chosen = pictured = 0;
    await newText(await handed.text(), handed.name);
  }

  async function changedText() {
    const answer = await ask("change", variants[chosen]);
    if (answer.ok) return answer.text;
    showProblems(answer.problems, variants[chosen].name);
    return null;
  }

  async function write() {
    const next = await changedText();
    if (next === null) return;
    variants[chosen].sets.clear();
    await newText(next);
  }

  async function save() {
    const next = await changedText();
    if (next === null) return;
    const link = make("a", {});
    link.href = URL.createObjectURL(new Blob([next], {type: "text/yaml"}));
    link.download = variants.length > 1 ? file.replace(/(\.ya?ml)?$/, "_" + variants[chosen].name + ".yaml") : file;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }

  let aboutDone = false;
  function about(view) {
    if (aboutDone) return;
    aboutDone = true;
    dullcast.pageFoot(byId("page-foot"), view, view.made_by + ". The engine runs in this page; it fetches nothing, sends nothing and keeps nothing.");
  }

  // ---- what is pressed

  const shell = dullcast.shell(byId("switches"), data.units || "field", (next) => {
    units = next;
    showForm();
    showResults();
    if (tracks) tracks.setUnits(next);
    if (bit) bit.setUnits(next);
    if (cardDrawn && byId("card").firstChild) dullcast.card(byId("card"), cardDrawn, {units});
  });
  units = shell.units();
  variants = [{name: "A", sets: new Map()}];
  byId("text").value = text;
  dullcast.whatIf = {variants: () => variants, took: 0};

  byId("undo").addEventListener("click", () => {
    variants[chosen].sets.clear();
    showForm();
    runSoon(variants[chosen]);
  });
  byId("write").addEventListener("click", write);
  byId("save").addEventListener("click", save);
  byId("forecast").addEventListener("click", findBand);
  byId("make-card").addEventListener("click", makeCard);
  byId("print-card").addEventListener("click", () => {
    document.body.classList.add("print-card");
    window.print();
  });
  window.addEventListener("afterprint", () => document.body.classList.remove("print-card"));
  byId("shown").addEventListener("change", () => {
    pictured = +byId("shown").value;
    showPictures();
  });
  byId("hole").addEventListener("change", () => tracks && tracks.setHole(+byId("hole").value));
  byId("whole").addEventListener("click", () => tracks && tracks.reset());
  byId("open").addEventListener("change", () => load(byId("open").files[0]));
  let typed = 0;
  byId("text").addEventListener("input", () => {
    clearTimeout(typed);
    typed = setTimeout(() => {
      text = byId("text").value;
      readText();
    }, 400);
  });
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    load(event.dataTransfer.files[0]);
  });

  byId("status").textContent = "Starting the engine\u2026";
  dullcast.engine.start().then(readText, (failure) => showProblems([failure.message]));
})();
