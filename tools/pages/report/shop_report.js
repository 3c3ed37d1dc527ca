// What a shop's season comes to, as a part of the report.
// needs third_party/d3/d3.min.js parts/shell.js parts/shop_days.js parts/shop_charts.js report/shop_tables.js
(function () {
  "use strict";
  const dullcast = window.dullcast, make = dullcast.make;
  dullcast.capitalOf = (text) => (text ? text[0].toUpperCase() + text.slice(1) : "");

  dullcast.shopSubtitle = (shop) => shop.bits.length + (shop.bits.length === 1 ? " bit, " : " bits, ") + shop.holes.length + (shop.holes.length === 1 ? " hole, " : " holes, ") + shop.first_day + " to " + shop.last_day + " (" + shop.time_zone + "), " + shop.futures + " futures";

  const key = (colour, words) => make("span", { class: "key" }, make("span", { class: "swatch", style: "background:" + colour }), words);

  // What is read in ten seconds.
  function firstScreen(shop, { live }) {
    const { clock, hours } = dullcast.shopTables.words;
    return live(make("section", { id: "summary", class: "shop-summary", "aria-label": "What the season comes to" }), (box, units) => {
      const head = shop.headline;
      const tile = (over, headline, ...under) => make("div", { class: "tile" }, make("p", { class: "over" }, over), make("p", { class: "headline" }, headline), under.filter(Boolean).map((u) => make("p", { class: "under" }, u)));
      const ends = (s, show) => "Eight futures of ten: " + show(s.low) + " to " + show(s.high) + ".";
      const plain = (v) => units.plain(v, 2);
      box.append(make("div", { class: "tiles" },
        tile("Come in for rework", head.arrivals, head.busiest ? make("strong", {}, "Most in " + head.busiest + ".") : null, ends(shop.arrivals, plain)),
        tile("Holes that begin late for want of a bit", head.late, make("strong", {}, "Rigs stand " + hours(units, shop.late_time.mean) + " of their hours."), ends(shop.late_holes, plain)),
        tile("From arrival to ready", head.turnaround, make("strong", {}, "One bit in ten takes " + head.turnaround_high + " or more."), "By the clock, of all visits.")));
      // The first is what the answer tells, where it saves anything.
      const best = shop.changes.length && shop.changes[0].saves ? shop.changes[0] : null, others = shop.changes.slice(best ? 1 : 0);
      const ready = (c) => (c.turnaround.middle === null ? "" : clock(units, c.turnaround.middle));
      const list = others.map((c) => make("li", { class: c.saves ? "saves" : c.tells ? "" : "open" }, make("strong", {}, dullcast.capitalOf(c.what)), " " + c.words + (c.saves && ready(c) ? "; ready after " + ready(c) : "") + "."));
      box.append(make("div", { class: "answer" }, make("h2", { id: "answer-title" }, "One more bench, bit or shift?"), make("p", { class: "sentence", id: "answer" }, head.answer),
        best && ready(best) ? make("p", {}, "With it half of the bits are ready within " + ready(best) + " of their arrival instead of " + head.turnaround + ".") : null,
        list.length ? make("ul", { class: "tried", "aria-label": "Other changes that were tried" }, list) : null,
        shop.changes.length ? make("p", { class: "note" }, "\u00b1 is two standard errors; what a change itself costs is not in it.") : null));
    });
  }

  // shopReport(main, shop, tools): a shop's outlook in figures, put into `main`. shop: what shop_view gives; tools:
  // report.js's.
  dullcast.shopReport = function (main, shop, tools) {
    const { section, figureBar } = tools, tables = dullcast.shopTables;
    const name = shop.name.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
    const note = shop.title + ". Estimates over " + shop.futures + " futures. " + shop.made_by;
    const words = (text) => make("p", { class: "lead" }, text);
    const figure = (id, label, build) => {
      const box = make("div", { class: "figure-box", id });
      let made = null;
      const bar = figureBar(name + "-" + id, () => made.svg, note);
      return { bar, box, draw() { made = build(box); tools.onUnits((u) => made.setUnits(u)); } };
    };
    main.append(firstScreen(shop, tools));

    if (shop.bits.length && shop.days.length) {
      const days = figure("days", "days", (box) => dullcast.shopDays(box, shop));
      main.append(section("where", "Where each bit is", words("The likeliest place of each bit at noon of each day: the stronger the colour, the surer. Weekends are lighter. Beneath, when it is due: the diamond the middle, the line eight futures of ten. Point at a day, or use the arrow keys."), days.bar, days.box,
        make("p", { class: "keys" }, shop.places.filter((p) => p.name !== "not_there").map((p) => key(dullcast.placeColours[p.name], p.words)), make("span", { class: "key" }, make("span", { class: "due-key", "aria-hidden": "true" }, "\u25c6"), "rework due"), shop.early_pulls.length ? make("span", { class: "key" }, make("span", { class: "pull-key", "aria-hidden": "true" }, "\u25bc"), "call in early") : null)));
      days.draw();
    }
    main.append(tables.bits(shop, tools), tables.holesAtRisk(shop, tools));

    const arrivals = figure("arrivals", "arrivals", (box) => dullcast.shopArrivals(box, shop, { units: tools.units() }));
    main.append(section("by-week", "What comes in, week by week", words("Mean number of bits by what the shop then does with them; thin lines are eight futures of ten."), arrivals.bar, arrivals.box,
      make("p", { class: "keys" }, shop.classes.map((words_, c) => key(dullcast.repairColours[c], words_)))));
    arrivals.draw();

    if (shop.stations.length) {
      const grid = make("div", { class: "two" });
      const load = section("load", "The benches", words("Mean hours of work a week, and eight futures of ten (thin lines), against what is open (dashed). Bars are orange where the mean takes all that is open."), grid);
      main.append(load);
      shop.stations.forEach((s, k) => {
        const one = figure("load-" + (k + 1), s.name, (box) => dullcast.shopLoad(box, shop, { units: tools.units(), which: k }));
        const at = make("p", { class: "lead" });
        tools.live(at, (p, units) => p.append("At work " + tables.words.percent(s.utilisation.mean) + " of what is open; " + units.plain(s.visits, 2) + " visits. " + (s.wait.high > 0 ? "A bit waits " + tables.words.clock(units, s.wait.mean) + " on average, one in ten " + tables.words.clock(units, s.wait.high) + " or more." : "Nine bits in ten do not wait.")));
        grid.append(make("div", { class: "station" }, make("h3", {}, dullcast.capitalOf(s.name) + ", " + s.benches + (s.benches === 1 ? " bench" : " benches")), at, one.box, one.bar));
        one.draw();
      });
      const waiting = figure("waiting", "waiting", (box) => dullcast.shopWaiting(box, shop, { units: tools.units() }));
      grid.append(make("div", { class: "station" }, make("h3", {}, "Bits that wait"), make("p", { class: "keys" }, shop.stations.map((s, k) => key(dullcast.colours.line(k).colour, s.name))), waiting.box, waiting.bar));
      waiting.draw();
    }
    if (shop.cutters.length) {
      const grid = make("div", { class: "two" });
      main.append(section("cutters", "Cutters", words("New cutters that bits take, or wait for: the middle, and eight futures of ten. Beneath, how likely it is that a bit waits for them."), grid));
      shop.cutters.forEach((c, k) => {
        const one = figure("cutters-" + (k + 1), c.name, (box) => dullcast.shopCutters(box, shop, { units: tools.units(), which: k }));
        const at = make("p", { class: "lead" });
        tools.live(at, (p, units) => p.append("Needed in all " + units.plain(c.needed.middle, 3) + ", one time in ten more than " + units.plain(c.needed.high, 3) + ". Fewest in the hand " + units.plain(c.least.middle, 3) + ", one time in ten " + units.plain(c.least.low, 3) + " or fewer. A bit waits for them in " + tables.words.percent(c.stock_out) + " of the futures" + (c.wait.mean === null ? "." : ", " + tables.words.clock(units, c.wait.mean) + " on average.")));
        grid.append(make("div", { class: "station" }, make("h3", {}, dullcast.capitalOf(c.name)), at, one.box, one.bar));
        one.draw();
      });
    }
    main.append(tables.weeks(shop, tools));
    for (const part of [tables.changes(shop, tools), tables.pulls(shop, tools), tables.money(shop, tools)]) if (part) main.append(part);
  };
})();
