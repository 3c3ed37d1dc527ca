// The report: what a run came to, its life, one hole over depth and the bit at the depth pointed at; several runs side by
// side.
// needs parts/shell.js parts/tracks.js parts/bit_view.js parts/life_chart.js parts/window_map.js
// needs report/sweep_report.js report/shop_report.js
(function () {
  "use strict";
  const dullcast = window.dullcast, make = dullcast.make;
  const runs = dullcast.pageData("runs-data") || [];
  const sweeps = dullcast.pageData("sweeps-data") || [];
  const shops = dullcast.pageData("shops-data") || [];
  const main = document.getElementById("report");
  let redraws = [];  // told of new units

  const grades = { go: "Suits the bit", with_care: "Go with care", wrong_bit: "Wrong bit", not_reached: "Not reached" };
  const capital = (text) => (text ? text[0].toUpperCase() + text.slice(1) : "");

  const shell = dullcast.shell(document.getElementById("switches"), (runs[0] || sweeps[0] || shops[0] || { units: "field" }).units, (units) => {
    for (const redraw of redraws) redraw(units);
  });

  // A part that is told anew for other units.
  function live(element, fill) {
    const put = (units) => {
      element.replaceChildren();
      fill(element, units);
    };
    put(shell.units());
    redraws.push(put);
    return element;
  }

  function section(id, title, ...children) {
    return make("section", { id, "aria-labelledby": id + "-title" }, make("h2", { id: id + "-title" }, title), children);
  }

  // What a figure carries with it wherever it goes.
  const noteOf = (view) => view.title + ". Estimates" + (view.band && view.band.length ? ", central case; " + bandWords(view) : "") + ". " + view.made_by;
  function bandWords(run) {
    const end = Object.fromEntries(run.band.map((b) => [b.end, b.words]));
    return "rework: low life " + end.low + ", high life " + end.high + " (" + (run.calibrated ? "calibrated" : "uncalibrated") + ")";
  }

  // What parts of the report share.
  const tools = { capital, live, section, table, figureBar, noteOf, units: () => shell.units(), onUnits: (told) => redraws.push(told) };

  function figureBar(name, svgOf, note, ...controls) {
    return make("div", { class: "controls figure-bar" }, controls, dullcast.saveButtons(name, svgOf, note));
  }

  // The case that figures show, its band and the verdict, in a line.
  const standing = (run, units) => "Shown is the central case" + (run.band.length ? "; " + bandWords(run) : "") + ". " + capital(units.say(run.verdict.words)) + ".";

  // What a customer reads first.
  function firstScreen(run) {
    return live(make("section", { id: "summary", class: "summary", "aria-label": "What it came to" }), (box, units) => {
      const due = run.rework_due;
      const band = Object.fromEntries(run.band.map((b) => [b.end, b]));
      const big = make("div", { class: "big" },
        make("p", { class: "over" }, due ? (run.holes_planned === 1 ? "Rework falls due at" : "Rework falls due in") : "Rework"),
        make("p", { class: "headline", id: "headline" }, due ? (run.holes_planned === 1 ? units.show("depth", due.depth) : "hole " + due.hole + " of " + run.holes_planned) : run.due_words.replace(/^not in/, "not due in")),
        make("p", { class: "under" }, due ? "after " + units.show("depth", due.footage, 4) + " and " + units.show("hours", due.rotating_time) + " of rotating" + (run.holes_planned === 1 ? "" : ", at " + units.show("depth", due.depth) + " in that hole") : "after " + units.show("depth", run.rows.footage[run.rows.footage.length - 1], 4) + " in all"));
      const facts = make("dl", { class: "facts" });
      const fact = (term, ...value) => facts.append(make("div", {}, make("dt", {}, term), make("dd", {}, value)));
      if (due) fact("By the rule", capital(units.say(due.rule_words)), make("span", { class: "why" }, due.cutter_words));
      if (band.low && band.high)
        fact("How sure", "Low life: " + band.low.words + ". High life: " + band.high.words + ".",
          make("span", { class: "why" }, "One case in ten is worse than low, one in ten better than high (" + (run.calibrated ? "calibrated by " + run.learned_from + (run.learned_from === 1 ? " bit" : " bits") : "uncalibrated") + ")."));
      else fact("How sure", "No band was asked for", make("span", { class: "why" }, "Only the central run was made."));
      if (run.hottest) fact("Hottest cutter", units.say(run.hottest.words), make("span", { class: "why" }, capital(units.say(run.marks[0].words)) + "."));
      fact("This ground", make("span", { class: "grade grade-" + run.verdict.grade }, grades[run.verdict.grade]), make("span", { class: "why" }, capital(units.say(run.verdict.words).replace(/^[^:]*: /, "")) + "."));
      if (run.costs) fact("Cost", units.say(run.costs.words), make("span", { class: "why" }, "Bit and rig time."));
      if (run.beyond_repair) fact("Past repair", capital(units.say(run.beyond_repair.words)), make("span", { class: "why" }, run.beyond_repair.rule_words));
      fact("Inspect", capital(run.inspect) + ".", run.first_to_do ? make("span", { class: "why" }, "First to do: " + run.first_to_do + ".") : null);
      box.append(big, facts);
    });
  }

  // One run in figures.
  function runFigures(run, place) {
    const name = run.name.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
    let tracks = null, bit = null, life = null;

    const lifeBox = make("div", { class: "figure-box", id: "life" });
    const lifeSection = section("life-of-the-bit", "Life of the bit",
      make("p", { class: "lead" }, "Every cutter's worn height over all that the bit drills, and the hottest cutter. " + (run.band.length && run.band[0].due ? "The shaded span is where rework falls due in eight cases of ten. " : "") + (run.holes.length > 1 ? "Choose a hole by clicking on it." : "")),
      figureBar(name + "-life", () => life.svg, noteOf(run)), lifeBox);

    const holeSelect = make("select", { id: "hole", "aria-label": "Hole" });
    for (const hole of run.holes) if (hole.first_row !== null) holeSelect.append(make("option", { value: hole.number }, hole.number));
    const along = make("select", { id: "along", "aria-label": "What runs down the page" }, make("option", { value: "depth" }, "depth"), make("option", { value: "time" }, "time"));
    const zoomIn = make("button", { type: "button", class: "small", "aria-label": "Zoom in" }, "+");
    const zoomOut = make("button", { type: "button", class: "small", "aria-label": "Zoom out" }, "\u2212");
    const whole = make("button", { type: "button", class: "small" }, "Whole hole");
    const tracksBox = make("div", { class: "figure-box", id: "tracks" });
    const bitBox = make("div", { class: "figure-box", id: "bit" });
    const where = make("p", { class: "lead", id: "bit-where" });
    const tracksSection = section("over-depth", "One hole over depth",
      make("p", { class: "lead" }, "Point at a depth, or use the arrow keys: the bit below is drawn as it is there. Drag over a range to zoom in."),
      live(make("p", { class: "lead standing" }), (p, u) => p.append(standing(run, u))),
      figureBar(name + "-hole", () => tracks.svg, noteOf(run), make("label", {}, "Hole ", holeSelect), make("label", {}, "over ", along), zoomIn, zoomOut, whole), tracksBox, trackKey());
    const bitSection = section("the-bit", "The bit at that depth", where, bitBox, make("div", { class: "controls" },
      ["below", "section", "cutter"].map((which) => make("span", {}, { below: "From below ", section: "Section ", cutter: "Close up " }[which], dullcast.saveButtons(name + "-bit-" + which, () => bit.figures[which], noteOf(run))))));
    place.append(lifeSection, tracksSection, bitSection);

    const units = shell.units();
    const showWhere = (row) => {
      const u = shell.units();
      where.textContent = "Hole " + run.rows.hole[row] + " at " + u.show("depth", run.rows.depth[row]) + ", after " + u.show("depth", run.rows.footage[row], 4) + " in all.";
    };
    if (!run.rows.depth.length) {
      for (const box of [lifeSection, tracksSection, bitSection]) box.remove();
      place.append(make("p", { class: "lead" }, "No rows were kept of this run, so there is nothing to draw over depth."));
    } else {
      bit = dullcast.bitView(bitBox, run, { units });
      tracks = dullcast.tracks(tracksBox, run, {
        units,
        onRow(row) {
          bit.update(row);
          showWhere(row);
        },
      });
      life = dullcast.lifeChart(lifeBox, [run], { units, onHole: (hole) => setHole(hole) });
      const setHole = (hole) => {
        tracks.setHole(hole);
        holeSelect.value = hole;
        life.setHole(hole);
      };
      setHole(tracks.hole());
      holeSelect.addEventListener("change", () => setHole(+holeSelect.value));
      along.addEventListener("change", () => tracks.setAlong(along.value));
      zoomIn.addEventListener("click", () => tracks.zoom(0.6));
      zoomOut.addEventListener("click", () => tracks.zoom(1 / 0.6));
      whole.addEventListener("click", () => tracks.reset());
      redraws.push((u) => {
        tracks.setUnits(u);
        bit.setUnits(u);
        life.setUnits(u);
        showWhere(tracks.row());
      });
    }
    place.append(groundTable(run));
    if (run.windows) place.append(windowMaps(run));
    place.append(rulesTable(run), eventsTable(run));
  }

  // Where the bit may be run, layer by layer.
  function windowMaps(run) {
    const box = make("div", { class: "window-maps" });
    const name = run.name.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
    const all = section("windows", "Where this bit may be run",
      make("p", { class: "lead" }, "Weight against rotary speed in every layer, each cell a short trial hole of its own with the bit as it starts. Green cells are inside all limits and tell the progress; a letter tells the limit that binds; the diamond is the plan. Come up to a new setting in steps."),
      make("p", { class: "keys" }, dullcast.windowMap.key(run).map(([letter, colour, words]) => make("span", { class: "key" }, make("span", { class: "chip", style: "background:" + colour + "73" }, letter), words))), box);
    run.windows.forEach((window_, k) => {
      const place = make("div", { class: "figure-box" });
      let map = null;
      box.append(make("div", {}, place, make("div", { class: "controls" }, dullcast.saveButtons(name + "-window-" + window_.layer, () => map.svg, noteOf(run)))));
      map = dullcast.windowMap(place, run, k, { units: shell.units() });
      redraws.push((u) => map.setUnits(u));
    });
    return all;
  }

  function trackKey() {
    const line = (k, words) => {
      const style = dullcast.colours.line(k);
      const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
      for (const [key, value] of Object.entries({ width: 34, height: 10, "aria-hidden": "true" })) svg.setAttribute(key, value);
      const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
      for (const [key, value] of Object.entries({ d: "M1 5h32", "stroke-width": 2, "stroke-dasharray": style.dash || "none" })) path.setAttribute(key, value);
      path.style.stroke = style.colour;
      svg.append(path);
      return make("span", { class: "key" }, svg, words);
    };
    return make("p", { class: "keys" }, line(1, "hottest cutter; flow past the bit"), line(5, "coolest cutter"), line(0, "most worn cutter (thin: the others); pumped flow; any edge chips"), line(3, "the edge most at risk"));
  }

  function table(head, rows, attributes = {}) {
    // Wider than a phone, it scrolls by itself, with the keys too.
    return make("div", { class: "table-box", tabindex: "0", role: "region", "aria-label": "Table: " + head.filter(Boolean).join(", ") }, make("table", attributes,
      make("thead", {}, make("tr", {}, head.map((cell) => make("th", { scope: "col" }, cell)))),
      make("tbody", {}, rows.map((row) => make("tr", {}, row.map((cell, k) => (k === 0 ? make("th", { scope: "row" }, cell) : make("td", {}, cell))))))));
  }

  function groundTable(run) {
    return live(section("ground", "Does this ground suit this bit?"), (box, units) => {
      box.append(make("h2", { id: "ground-title" }, "Does this ground suit this bit?"));
      box.append(table(["Rock", "From", "To", "Verdict", "Why", "Progress", "Hottest flat"], run.verdict.layers.map((one) => {
        const layer = run.layers[one.layer - 1];
        const passes = run.passages.filter((p) => p.layer === one.layer);
        const time = d3.sum(passes, (p) => p.rotating_time), metres = d3.sum(passes, (p) => p.bottom - p.top);
        return [layer.rock, units.show("depth", layer.top), units.show("depth", layer.bottom), make("span", { class: "grade grade-" + one.grade }, one.words),
          one.why.map((w) => units.say(w)).join("; "), time > 0 ? units.show("progress", metres / time) : "\u2013", passes.length ? units.show("temperature", d3.max(passes, (p) => p.hottest_flat)) : "\u2013"];
      })));
    });
  }

  function rulesTable(run) {
    return live(section("rules", "Rules for rework"), (box) => {
      box.append(make("h2", { id: "rules-title" }, "Rules for rework"),
        make("p", { class: "lead" }, run.rework_due ? "How much of each rule's allowance was used when rework fell due." : "How much of each rule's allowance was used at the end."));
      box.append(make("div", { class: "bars" }, run.rules.map((rule) => {
        const used = Math.round(100 * rule.used);
        return make("div", { class: "bar-row" }, make("span", { class: "bar-name" }, capital(rule.words)),
          make("span", { class: "bar", role: "img", "aria-label": used + " percent used" }, make("span", { class: "bar-fill" + (rule.used >= 1 ? " due" : ""), style: "width:" + Math.min(100, used) + "%" })),
          make("span", { class: "bar-value" }, used + "\u00a0%"));
      })));
      if (run.band_due_to.length)
        box.append(make("p", { class: "lead" }, "The band is due to " + run.band_due_to.slice(0, 4).map((e) => e.name + " (" + Math.round(100 * e.share) + "\u00a0%)").join(", ") + "."));
    });
  }

  function eventsTable(run) {
    const told = run.events.filter((e) => e.kind !== "layer_entered" && e.kind !== "hole_finished");
    return live(section("events", "Events"), (box, units) => {
      box.append(make("h2", { id: "events-title" }, "Events"));
      if (!told.length) {
        box.append(make("p", { class: "lead" }, "Nothing out of the ordinary happened."));
        return;
      }
      const most = 40;
      box.append(table(["Hole", "Depth", "Drilled in all", "Cutter", "What happened"], told.slice(0, most).map((e) => [String(e.hole), units.show("depth", e.depth), units.show("depth", e.footage, 4), e.cutter === null ? "" : String(e.cutter), e.words])));
      if (told.length > most) box.append(make("p", { class: "lead" }, "And " + (told.length - most) + " more."));
    });
  }

  function sideBySide() {
    const box = make("div", { class: "figure-box", id: "life-of-all" });
    const all = section("side-by-side", "Side by side", figureBar("side-by-side", () => chart.svg, "Estimates. " + runs[0].made_by), box);
    main.append(all);
    const chart = dullcast.lifeChart(box, runs, { units: shell.units() });
    redraws.push((u) => chart.setUnits(u));
    all.append(live(make("div"), (place, units) => {
      const rows = [
        ["Rework due", (r) => r.due_words],
        ["By the rule", (r) => (r.rework_due ? r.rework_due.rule_words : "\u2013")],
        ["Drilled until then", (r) => units.show("depth", r.rework_due ? r.rework_due.footage : r.rows.footage[r.rows.footage.length - 1], 4)],
        ["Rotating until then", (r) => units.show("hours", r.rework_due ? r.rework_due.rotating_time : r.rows.rotating_time[r.rows.rotating_time.length - 1])],
        ["Low and high life", (r) => (r.band.length ? r.band.filter((b) => b.end !== "central").map((b) => b.end + ": " + b.words).join("; ") : "no band")],
        ["Hottest cutter", (r) => (r.hottest ? units.say(r.hottest.words) : "\u2013")],
        ["This ground", (r) => capital(units.say(r.verdict.words))],
        ["Cost", (r) => (r.costs ? units.say(r.costs.words) : "\u2013")],
        ["Past repair", (r) => (r.beyond_repair ? "hole " + r.beyond_repair.hole : "not reached")],
      ];
      place.append(table([""].concat(runs.map((r, k) => k + 1 + "  " + r.name.replace(/^.*\//, ""))), rows.map(([name, of]) => [name].concat(runs.map(of))), { class: "comparison" }));
    }));
  }

  function foot() {
    const first = runs[0] || sweeps[0] || shops[0];
    dullcast.pageFoot(document.getElementById("page-foot"), first, "Made by " + first.made_by + " from " + runs.concat(sweeps, shops).map((r) => r.name).join(", ") + ".");
  }

  function start() {
    const first = runs[0] || sweeps[0] || shops[0];
    if (!first) return;
    const all = runs.concat(sweeps, shops);
    document.getElementById("title").textContent = all.length === 1 ? first.title : "Side by side";
    document.getElementById("subtitle").textContent = all.length === 1 && runs.length === 1 ? capital(first.bit.name) + ", " + first.bit.cutters.length + " cutters on " + first.bit.blades + " blades"
      : all.length === 1 && shops.length === 1 ? dullcast.shopSubtitle(first) : all.length === 1 ? "A sweep of " + first.cases + " runs" : all.map((r) => r.title).join("; ");
    if (runs.length > 1) {
      sideBySide();
      const select = make("select", { id: "run", "aria-label": "Run" }, runs.map((r, k) => make("option", { value: k }, k + 1 + "  " + r.name)));
      main.append(make("div", { class: "controls run-choice" }, make("label", {}, "Look closer at ", select)));
      const place = make("div", { id: "chosen-run" });
      main.append(place);
      let others = redraws.slice(), own = [];
      const show = (k) => {
        others = redraws.filter((r) => !own.includes(r));
        redraws = others.slice();
        place.replaceChildren(firstScreen(runs[k]));
        runFigures(runs[k], place);
        own = redraws.slice(others.length);
      };
      select.addEventListener("change", () => show(+select.value));
      show(0);
    } else if (runs.length === 1) {
      main.append(firstScreen(first));
      runFigures(first, main);
    }
    for (const sweep of sweeps) {
      if (all.length > 1) main.append(make("h2", { class: "sweep-title" }, "Sweep: " + sweep.title));
      dullcast.sweepReport(main, sweep, tools);
    }
    for (const shop of shops) {
      if (all.length > 1) main.append(make("h2", { class: "sweep-title" }, "Shop: " + shop.title));
      dullcast.shopReport(main, shop, tools);
    }
    foot();
    document.documentElement.dataset.ready = "yes";
  }
  start();
})();
