// The run card: what to hold over each stretch of the hole, on one printed page.
// needs third_party/d3/d3.min.js parts/units.js parts/rock_patterns.js parts/shell.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const capital = (text) => (text ? text[0].toUpperCase() + text.slice(1) : "");

  // Shrinks the printed card to one page: as wide as A4 and as high as letter paper leave it within margins of 9 mm.
  function fit(sheet) {
    const width = 716, height = 975;  // CSS pixels, 96 to the inch
    const before = sheet.getAttribute("style") || "";
    const high = (scale) => {
      sheet.style.cssText = "position:absolute;visibility:hidden;border:0;padding:0;max-width:none;width:" + width / scale + "px";
      return sheet.getBoundingClientRect().height * scale;
    };
    let scale = 1;
    while (scale > 0.5 && high(scale) > height) scale -= 0.02;
    sheet.style.cssText = before;
    sheet.style.setProperty("--fit", scale.toFixed(2));
  }

  // card(container, view, options): view: what card_view gives (engine/pages/card_view.hpp). options: units.
  dullcast.card = function (container, view, options = {}) {
    const make = dullcast.make;
    const units = options.units || dullcast.units(view.units);
    const flow = view.gas ? "gas_flow" : "flow";
    // Whole numbers that a gauge shows.
    const round = (kind, value, step) => {
      const shown = units.convert(kind, value);
      if (!Number.isFinite(shown)) return "\u2013";
      const even = Math.abs(shown) >= 5 * step ? Math.round(shown / step) * step : Math.round(shown * 10) / 10;
      return units.plain(even, 6);
    };
    const upward = (kind, value, step) => units.plain(Math.ceil(units.convert(kind, value) / step - 1e-6) * step, 6);
    const si = units.system === "si";
    const place = (depth) => units.convert("depth", depth).toFixed(si ? 1 : 0);
    const steps = { weight: si ? 0.5 : 100, flow: si ? 5 : 1 };

    const grades = { go: "go", with_care: "care", wrong_bit: "wrong bit", not_reached: "not reached" };
    container.replaceChildren();
    const sheet = make("article", { class: "card " + (view.rows.length > 11 ? "many" : view.rows.length > 7 ? "some" : "few") });
    sheet.append(
      make("header", { class: "card-title" }, make("h1", { id: "title" }, view.title),
        make("p", {}, capital(view.bit.name) + "; " + view.fluid + "; " + (view.holes === 1 ? "one hole" : view.holes + " holes") + " to " + units.show("depth", view.bottom) + "."),
        make("p", { class: "card-verdict grade grade-" + view.verdict.grade, id: "verdict" }, capital(units.say(view.verdict.words)) + ".")));

    const swatch = (pattern) => {
      const svg = d3.create("svg").attr("class", "figure swatch").attr("viewBox", "0 0 26 30").attr("width", 26).attr("height", 30).attr("aria-hidden", "true");
      const fill = dullcast.rockPatterns(svg.append("defs"));
      svg.append("rect").attr("x", 0.5).attr("y", 0.5).attr("width", 25).attr("height", 29).attr("fill", fill(pattern)).attr("class", "layer");
      return svg.node();
    };
    const head = (name, unit) => make("th", { scope: "col" }, name, unit ? make("span", { class: "unit" }, unit) : null);
    const body = view.rows.map((row) => {
      const least = row.least_flow === null
        ? [make("span", { class: "huge" }, round(flow, row.planned_flow, steps.flow)), row.flow_words ? make("span", { class: "short" }, "\u25b2 " + row.flow_words) : null]
        : [make("span", { class: "huge" }, upward(flow, row.least_flow, steps.flow)),
            make("span", { class: row.flow_is_short ? "small warn" : "small" }, (row.flow_is_short ? "\u25b2 plan has " : "plan has ") + round(flow, row.planned_flow, steps.flow))];
      const watch = row.watch.slice(0, view.rows.length > 11 ? 1 : 2).map((w) => units.say(w)).join("; ");
      return make("tr", {},
        make("th", { scope: "row" }, make("span", { class: "huge" }, place(row.from) + "\u2013" + place(row.to))),
        make("td", {}, make("div", { class: "rock-cell" }, swatch(row.pattern), make("div", {}, make("b", {}, row.rock), make("span", { class: "small grade grade-" + row.grade }, grades[row.grade])))),
        make("td", { "data-unit": units.unit("weight") }, make("span", { class: "huge" }, (row.held_by_feed ? "\u2264\u200a" : "") + round("weight", row.weight, steps.weight)),
          view.weight_limit > 0 && row.weight > 1.001 * view.weight_limit && !row.held_by_feed ? make("span", { class: "small warn" }, "\u25b2 over the limit")
            : row.held_by_feed ? make("span", { class: "small" }, "feed holds back") : null),
        make("td", {}, make("span", { class: "huge" }, round("rotary_speed", row.rotary_speed, 1))),
        make("td", { "data-unit": units.unit(flow) }, least),
        make("td", { "data-unit": units.unit("progress") }, row.progress === null ? "\u2013" : units.plain(units.convert("progress", row.progress), 2)),
        make("td", { class: "watch" }, watch ? capital(watch) + "." : ""));
    });
    sheet.append(make("table", { class: "card-table" },
      make("thead", {}, make("tr", {}, head("Depth", units.unit("depth")), head("Rock"), head("Weight", units.unit("weight")), head("Speed", "rpm"), head("Flow, at least", units.unit(flow)), head("Expect", units.unit("progress")), head("Watch for"))),
      make("tbody", {}, body)));
    if (view.weight_limit > 0) sheet.append(make("p", { class: "card-note" }, "Never more than " + round("weight", view.weight_limit, steps.weight) + " " + units.unit("weight") + " on this bit. Flow: the least that cools the cutters and clears the hole, for the bit as it starts and worn to its rule. Expected progress: of the bit as it starts."));

    sheet.append(make("div", { class: "card-when" },
      make("section", {}, make("h2", {}, "When to pull"), make("p", { class: "pull", id: "pull" }, units.say(view.pull) + "."),
        make("p", {}, view.band_words ? capital(view.band_words) + " (" + (view.calibrated ? "calibrated" : "uncalibrated") + "; one case in ten is worse, one better)." : "Without a band: only the central run was made."),
        make("p", {}, make("b", {}, "Inspect "), view.inspect + ".")),
      make("section", {}, make("h2", {}, "Pull sooner when you see"), make("ul", {}, view.pull_sooner.map((w) => make("li", {}, units.say(w))), make("li", {}, "torque that jumps, bouncing, or progress that falls off in ground that drilled well")))));

    sheet.append(make("footer", { class: "card-foot" },
      make("p", {}, make("b", {}, "If the flow fails, lift off bottom at once and come back only with flow. "), view.cautions.join(" ")),
      make("p", { class: "made" }, view.estimates.slice(0, 2).join(" ") + " Made by " + view.made_by + " from " + view.name.replace(/^.*\//, "") + ".")));
    container.append(sheet);
    fit(sheet);
  };
})();
