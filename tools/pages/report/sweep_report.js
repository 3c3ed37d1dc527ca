// What a sweep's runs mean, as a part of the report.
// needs parts/sweep_charts.js parts/shell.js
(function () {
  "use strict";
  const dullcast = window.dullcast, make = dullcast.make;

  // sweepReport(main, sweep, tools): a sweep in figures, put into `main`. sweep: what sweep_view gives; tools: report.js's.
  dullcast.sweepReport = function (main, sweep, tools) {
    const { capital, section, figureBar, noteOf } = tools;
    const name = sweep.name.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
    const figure = (id, title, words, build, ...controls) => {
      const box = make("div", { class: "figure-box", id });
      let made = null;
      const all = section(id + "-section", title, make("p", { class: "lead" }, words), figureBar(name + "-" + id, () => made.svg, noteOf(sweep), ...controls), box);
      main.append(all);
      made = build(box);
      tools.onUnits((u) => made.setUnits(u));
      return made;
    };
    main.append(sweepSummary(sweep, tools));
    const percent = Math.round(100 * sweep.confidence) + " %";
    if (sweep.survival)
      figure("survival", "How long bits last", "The share of runs in which no rework is due yet, with what the number of draws leaves open (" + percent + "). " + sweep.survival.lives + " runs, " + sweep.survival.censored + " of which ended before rework fell due.", (box) => dullcast.survivalChart(box, sweep, { units: tools.units() }));
    if (sweep.course) {
      const choice = make("select", { "aria-label": "Course of" }, sweep.course.bands.map((b) => make("option", { value: b.outcome }, b.name)));
      const course = figure("course", "On the way", "Eight runs of ten lie in the band, the line is their middle, of the " + sweep.course.courses + " runs whose course was kept, as far as half of them got. A run that ended stays as worn as it was; of heat and progress it is in the band no longer.", (box) => dullcast.courseChart(box, sweep, { units: tools.units() }), make("label", {}, "Show ", choice));
      choice.addEventListener("change", () => course.setOutcome(choice.value));
    }
    if (sweep.trade_off && sweep.trade_off.points.length > 1)
      figure("trade-off", "What settings trade", "Cost against heat at every setting. The diamond is the cheapest within the limits; blue settings are those that no other beats; a white dot marks what the draws cannot tell from the cheapest. The larger, the more chips to expect.", (box) => dullcast.tradeOffChart(box, sweep, { units: tools.units() }));
    const select = make("select", { "aria-label": "Outcome" }, sweep.bands.map((b) => make("option", { value: b.outcome }, b.name)));
    // Points of designs for sensitivities are no settings anybody would choose between.
    if (sweep.draws > 1) {
      const bands = figure("bands", "What each setting came to", "Eight draws of ten lie in the bar, the line is their middle" + (sweep.points > 24 ? "; the best 24 settings" : "") + ".", (box) => dullcast.bandChart(box, sweep, { units: tools.units() }), make("label", {}, "Show ", select));
      select.addEventListener("change", () => bands.setOutcome(select.value));
    }
    if (sweep.sensitivities.length) {
      const two = make("div", { class: "two" });
      main.append(section("what-matters", "What matters", make("p", { class: "lead" }, "The strongest first; thin lines are what the number of runs leaves open (" + percent + ")." + (sweep.sensitivities[0].how === "variance_shares" ? " Dark: what it does alone." : "")), two));
      sweep.sensitivities.forEach((one, k) => {
        const box = make("div", { class: "figure-box" });
        let made = null;
        two.append(make("div", {}, make("h3", {}, capital(one.name) + (one.censored > 0 ? " (without " + one.censored + " runs in which none was due)" : "")), box, make("div", { class: "controls" }, dullcast.saveButtons(name + "-sensitivity-" + one.outcome, () => made.svg, noteOf(sweep)))));
        made = dullcast.sensitivityChart(box, sweep, { units: tools.units(), which: k });
        tools.onUnits((u) => made.setUnits(u));
      });
    }
  };

  function sweepSummary(sweep, { capital, live }) {
    return live(make("section", { class: "summary", "aria-label": "What the sweep came to" }), (box, units) => {
      const half = sweep.life && sweep.life.rotating_time.find((q) => q.share === 0.5);
      const trade = sweep.trade_off;
      const range = (q, kind) => units.show(kind, q.value) + " (" + (q.low === null ? "open" : units.show(kind, q.low)) + " to " + (q.high === null ? "open" : units.show(kind, q.high)) + ")";
      const first = sweep.sensitivities.find((s) => s.factors.length);
      if (!(trade && trade.best) && !half && first)
        box.append(make("div", { class: "big" }, make("p", { class: "over" }, "Matters most for the " + first.name), make("p", { class: "headline" }, first.factors[0].name),
          make("p", { class: "under" }, first.factors.length > 1 ? "then " + first.factors.slice(1, 3).map((f) => f.name).join(" and ") : "")));
      else box.append(make("div", { class: "big" },
        make("p", { class: "over" }, trade && trade.best ? "Cheapest within the limits" : "Half of the bits come to rework within"),
        make("p", { class: "headline" }, trade && trade.best ? "setting " + trade.best : half && half.value !== null ? units.show("hours", half.value) : "not told by these runs"),
        make("p", { class: "under" }, trade && trade.best ? dullcast.settingsWords(sweep, units, trade.best) : half && half.value !== null ? range(half, "hours") : "")));
      const facts = make("dl", { class: "facts" });
      const fact = (term, ...value) => facts.append(make("div", {}, make("dt", {}, term), make("dd", {}, value)));
      if (trade && trade.best) {
        const best = trade.points.find((p) => p.point === trade.best), alike = trade.points.filter((p) => p.like_best && p.point !== trade.best).length;
        fact("Its cost", units.plain(units.convert("per_length", best.cost)) + " " + sweep.currency + units.unit("per_length"), make("span", { class: "why" }, best.cost_half_width ? "give or take " + units.plain(units.convert("per_length", best.cost_half_width), 2) + "." : "One draw: no error known."));
        fact("Others as good", alike ? String(alike) : "None", make("span", { class: "why" }, trade.told_apart ? "Settings that these draws cannot tell from it." : "Too few draws to tell settings apart."));
      }
      for (const [share, words] of [[0.1, "One in ten due by"], [0.5, "Half due by"], [0.9, "Nine in ten due by"]]) {
        const q = sweep.life && sweep.life.rotating_time.find((one) => Math.abs(one.share - share) < 1e-9);
        if (q) fact(words, q.value === null ? "not within the runs" : range(q, "hours"));
      }
      fact("Runs", sweep.cases + " in " + sweep.points + (sweep.points === 1 ? " point" : " points"), make("span", { class: "why" }, capital(sweep.design) + (sweep.draws > 1 ? ", " + sweep.draws + " draws each" : "") + (sweep.failed ? "; " + sweep.failed + " failed" : "") + "."));
      box.append(facts);
    });
  }
})();
