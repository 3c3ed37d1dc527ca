// What comes out of the settings, side by side: one column a setting, what differs from the first marked.
// needs parts/shell.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const make = (...given) => dullcast.make(...given);
  const capital = (text) => (text ? text[0].toUpperCase() + text.slice(1) : "");
  const grades = {go: "Suits the bit", with_care: "Go with care", wrong_bit: "Wrong bit", not_reached: "Not reached"};

  /// Rows of the comparison: {label, of(view) -> text, number(view) -> a number to compare, or nothing}.
  function rowsOf(views, units) {
    const first = views.find((v) => v);
    const all = [
      {label: "Rework", big: true, of: (v) => (v.rework_due ? "hole " + v.rework_due.hole + " of " + v.holes_planned : v.due_words.replace(/^not in/, "not due in")),
       number: (v) => (v.rework_due ? v.rework_due.footage : NaN)},
      {label: "after", of: (v) => (v.rework_due ? units.show("depth", v.rework_due.footage, 4) + ", " + units.show("hours", v.rework_due.rotating_time) + " rotating" : "\u2013"),
       number: (v) => (v.rework_due ? v.rework_due.rotating_time : NaN)},
      {label: "by the rule", of: (v) => (v.rework_due ? capital(v.rework_due.rule_words) : "\u2013")},
      {label: "How sure", of: (v) => {
        const end = (name) => v.band.find((b) => b.end === name);
        return end("low") && end("high") ? `low ${end("low").words}, high ${end("high").words}` : "not asked yet";
      }},
      {label: "Drilled in all", of: (v) => units.show("depth", v.rows.footage[v.rows.footage.length - 1], 4),
       number: (v) => v.rows.footage[v.rows.footage.length - 1]},
      {label: "Past repair", of: (v) => (v.beyond_repair ? `hole ${v.beyond_repair.hole}, after ${units.show("depth", v.beyond_repair.footage, 4)}` : "not reached")},
      {label: "Hottest flat", of: (v) => (v.hottest ? units.say(v.hottest.words) : "\u2013"), number: (v) => (v.hottest ? v.hottest.temperature : NaN), kind: "temperature"},
      {label: "Most worn at the end", of: (v) => units.show("length", worst(v)), number: worst},
      {label: "Does the ground suit it", of: (v) => grades[v.verdict.grade] + ": " + units.say(v.verdict.words).replace(/^[^:]*: /, ""), grade: (v) => v.verdict.grade},
      {label: "Bit and rig", of: (v) => (v.costs ? units.say(v.costs.words) : "no prices given"), number: (v) => (v.costs ? v.costs.per_metre : NaN)},
      {label: "The shop then", of: (v) => (v.repair ? capital(v.repair.words) : "\u2013")},
      {label: "First to do", of: (v) => (v.first_to_do ? capital(v.first_to_do) : "nothing")},
    ];
    first.layers.forEach((layer, k) => {
      const passage = (v) => v.passages.find((p) => p.layer === k + 1);
      all.push({label: `Layer ${k + 1}` + (first.holes_planned > 1 ? ", first hole" : ""),
                of: (v) => {
                  const p = passage(v);
                  return !p ? (v.layers[k] ? v.layers[k].rock + ": not reached" : "\u2013")
                            : `${p.rock}: ${units.show("progress", p.rate_of_penetration)}, flat ${units.show("temperature", p.hottest_flat)}`;
                },
                number: (v) => (passage(v) ? passage(v).rate_of_penetration : NaN)});
    });
    return all;
  }

  function worst(v) {
    let most = 0;
    for (const column of v.rows.cutters.worn_height) most = Math.max(most, column[column.length - 1] || 0);
    return most;
  }

  function change(row, from, to, units) {
    if (!row.number) return "";
    const a = row.number(from), b = row.number(to);
    if (!Number.isFinite(a) || !Number.isFinite(b) || a === b) return "";
    if (row.kind === "temperature") {
      const d = units.convert("temperature", b) - units.convert("temperature", a);
      return Math.abs(d) < 1 ? "" : (d > 0 ? "\u25b2 " : "\u25bc ") + Math.abs(Math.round(d)) + "\u00a0" + units.unit("temperature");
    }
    const share = (b - a) / Math.abs(a);
    return Math.abs(share) < 0.005 ? "" : (share > 0 ? "\u25b2 " : "\u25bc ") + units.plain(Math.abs(100 * share), 2) + "\u00a0%";
  }

  /// columns: [{name, view or null, words: what to say while there is none, sets: changes of the scenario}].
  dullcast.whatIfResults = function (container, columns, units) {
    const views = columns.map((c) => c.view), base = views[0];
    if (!views.some((v) => v)) {
      container.replaceChildren(make("p", {class: "quiet"}, columns.map((c) => c.words).filter((w) => w)[0] || ""));
      return;
    }
    const head = make("tr", {}, make("th", {scope: "col"}, make("span", {class: "hidden-words"}, "What")),
      columns.map((c) => make("th", {scope: "col"}, c.name, c.words ? make("span", {class: "quiet block"}, c.words) : null)));
    const body = rowsOf(views, units).map((row) => make("tr", {class: row.big ? "big-row" : null},
      make("th", {scope: "row"}, row.label),
      columns.map((c, k) => {
        if (!c.view) return make("td", {}, "\u2013");
        const text = row.of(c.view);
        const differs = k > 0 && base && row.of(base) !== text;
        const more = differs ? change(row, base, c.view, units) : "";
        return make("td", {class: differs ? "differs" : null},
          row.grade ? make("span", {class: "grade grade-" + row.grade(c.view)}, text) : text,
          differs ? make("span", {class: "delta"}, more || "\u2260", make("span", {class: "hidden-words"}, " differs from the first")) : null);
      })));
    // What a sheet of paper would not say otherwise.
    body.unshift(make("tr", {}, make("th", {scope: "row"}, "Changed in it"),
      columns.map((c) => make("td", {class: "changed-in"}, c.sets.length ? c.sets.map((set) => make("div", {}, set.replace("=", ": "))) : "nothing"))));
    container.replaceChildren(make("div", {class: "table-box", tabindex: "0", role: "region", "aria-label": "Comparison"},
      make("table", {class: "comparison"}, make("thead", {}, head), make("tbody", {}, body))));
  };
})();
