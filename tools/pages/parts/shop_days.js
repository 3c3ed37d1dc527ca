// Where every bit of a shop is likeliest to be, day by day: a row a bit, a column a day, the stronger the colour the
// surer; when it falls due beneath its row.
// needs third_party/d3/d3.min.js parts/units.js parts/colours.js parts/figure_size.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // Colours of Okabe & Ito (colours.js), told apart with any colour vision; where a bit is not there, none.
  const colours = {
    ready: "var(--series-2)", at_rig: "var(--series-5)", drilling: "var(--series-0)", on_the_road: "var(--series-6)",
    waiting_in_shop: "var(--series-4)", on_a_bench: "var(--series-1)", being_bought: "var(--series-3)", not_there: "none",
  };
  dullcast.placeColours = colours;

  const strength = (thousandths) => (0.12 + 0.88 * Math.round(thousandths / 100) / 10).toFixed(2);
  const likeliest = (day) => day.reduce((best, share, k) => (share > day[best] ? k : best), 0);
  const weekdays = ["", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
  let made = 0;

  // shopDays(container, shop, options): shop: what shop_view gives (engine/pages/shop_view.hpp). The pointer or the arrow
  // keys choose a bit and a day, whose shares stand beneath. Gives {svg, setUnits(units), redraw(), bit(), day(),
  // go(bit, day)}.
  dullcast.shopDays = function (container, shop) {
    const id = "shop-days-" + ++made;
    let bit = 0, day = 0, mark = null;
    const root = d3.select(container);
    root.selectAll("*").remove();
    const svg = root.append("svg").attr("class", "figure shop-days").attr("id", id).attr("role", "group")
      .attr("aria-label", "Where each bit is likeliest to be, day by day, from " + shop.first_day + " to " + shop.last_day);
    const status = root.append("p").attr("class", "figure-status").attr("id", id + "-status");
    const count = shop.days.length;
    let at = null;  // the last drawing's measures

    const words = () => {
      const one = shop.bits[bit], when = shop.days[day];
      const shares = one.days[day].map((share, k) => [share, shop.places[k].words]).filter(([share]) => share >= 5).sort((a, b) => b[0] - a[0]);
      return one.name + ", " + weekdays[when.weekday] + " " + when.date + ": " + (shares.length ? shares.map(([share, place]) => place + " " + Math.round(share / 10) + "\u00a0%").join(", ") : "nothing is known") + ".";
    };

    function go(nextBit, nextDay) {
      bit = Math.max(0, Math.min(shop.bits.length - 1, nextBit));
      day = Math.max(0, Math.min(count - 1, nextDay));
      status.text(words());
      if (!mark) return;
      mark.column.attr("x", at.x(day)).attr("width", Math.max(1, at.x(day + 1) - at.x(day)));
      mark.cell.attr("x", at.x(day) - 1).attr("y", at.y(bit) - 1).attr("width", Math.max(3, at.x(day + 1) - at.x(day) + 2));
      mark.overlay.attr("aria-valuenow", bit * count + day + 1).attr("aria-valuetext", words());
    }

    // Neighbouring days that look alike, as one.
    function runsOf(days) {
      const runs = [];
      days.forEach((shares, k) => {
        const place = likeliest(shares), strong = strength(shares[place]), last = runs[runs.length - 1];
        if (shares[place] === 0) return;
        if (last && last.place === place && last.strong === strong && last.end === k) last.end = k + 1;
        else runs.push({ place, strong, begin: k, end: k + 1 });
      });
      return runs;
    }

    function drawDates(box) {
      const pixels = at.x(1) - at.x(0);
      shop.months.forEach((month, k) => {
        const x = at.x(month.day), next = k + 1 < shop.months.length ? at.x(shop.months[k + 1].day) : box.right;
        svg.append("line").attr("class", "month-line").attr("x1", x).attr("x2", x).attr("y1", 4).attr("y2", box.bottom);
        const name = next - x > 92 ? month.name : next - x > 28 ? month.name.slice(0, 3) : "";
        svg.append("text").attr("class", "head").attr("x", x + 4).attr("y", 15).text(name);
      });
      const every = Math.max(1, Math.ceil(24 / (7 * pixels)));
      let week = 0;
      shop.days.forEach((one, k) => {
        if (one.weekday !== 1) return;
        if (week++ % every === 0) svg.append("text").attr("class", "tick").attr("x", at.x(k) + 2).attr("y", 29).text(one.date.slice(8).replace(/^0/, ""));
        if (7 * pixels >= 8) svg.append("line").attr("class", "week-line").attr("x1", at.x(k)).attr("x2", at.x(k)).attr("y1", 33).attr("y2", box.bottom);
      });
    }

    function drawRow(one, k, strip, box, narrow) {
      const y = at.y(k), row = svg.append("g");
      row.append("text").attr("class", narrow ? "value" : "label bit-name").attr("x", narrow ? box.left : box.left - 8).attr("y", narrow ? y - 4 : y + strip / 2)
        .attr("text-anchor", narrow ? "start" : "end").attr("dominant-baseline", narrow ? "auto" : "central").text(one.name.length > 13 && !narrow ? one.name.slice(0, 12) + "\u2026" : one.name);
      row.append("rect").attr("class", "day-ground").attr("x", box.left).attr("y", y).attr("width", box.right - box.left).attr("height", strip);
      for (const run of runsOf(one.days))
        row.append("rect").attr("class", "day-run").attr("x", at.x(run.begin)).attr("y", y).attr("width", at.x(run.end) - at.x(run.begin)).attr("height", strip)
          .style("fill", colours[shop.places[run.place].name]).style("fill-opacity", run.strong);
      const due = one.due;
      if (!due.middle) return;
      const within = (when, other) => Math.max(box.left, Math.min(box.right, at.x(when ? when.day : other)));
      const under = y + strip + 4, from = within(due.low, 0), to = within(due.high, count), middle = within(due.middle, 0);
      const told = row.append("g").attr("class", "due-span");
      told.append("line").attr("x1", from).attr("x2", to).attr("y1", under).attr("y2", under);
      for (const end of [from, to]) told.append("line").attr("x1", end).attr("x2", end).attr("y1", under - 2.5).attr("y2", under + 2.5);
      told.append("path").attr("d", "M" + middle + "," + (under - 4.5) + "l4.5,4.5l-4.5,4.5l-4.5,-4.5z");
      told.append("title").text(one.name + ": due " + due.middle.text + " (" + (due.low ? due.low.text : "open") + " to " + (due.high ? due.high.text : "open") + ")");
    }

    function redraw() {
      const width = dullcast.figureWidth(container, 300), narrow = width < 640;
      const top = narrow ? 50 : 38, step = narrow ? 42 : 26, strip = 15, left = narrow ? 1 : 92;
      const box = { left, right: width - 2, top, bottom: top + step * shop.bits.length };
      const focused = mark && document.activeElement === mark.overlay.node();
      at = { x: d3.scaleLinear().domain([0, Math.max(1, count)]).range([box.left, box.right]), y: (k) => top + step * k };
      svg.selectAll("*").remove();
      const height = box.bottom + 4;
      svg.attr("viewBox", "0 0 " + width + " " + height).attr("width", width).attr("height", height);
      shop.bits.forEach((one, k) => drawRow(one, k, strip, box, narrow));
      const pixels = at.x(1) - at.x(0);
      shop.days.forEach((one, k) => {
        if (one.weekday < 6) return;
        shop.bits.forEach((_, row) => svg.append("rect").attr("class", "day-off").attr("x", at.x(k)).attr("y", at.y(row)).attr("width", pixels).attr("height", strip));
      });
      drawDates(box);
      for (const pull of shop.early_pulls) {
        const row = shop.bits.findIndex((one) => one.name === pull.bit);
        if (row < 0 || !pull.at) continue;
        svg.append("path").attr("class", "pull-mark").attr("d", "M" + at.x(pull.at.day) + "," + (at.y(row) + 7) + "l-5,-10h10z").append("title").text(pull.bit + ": call in early, " + pull.at.text);
      }
      const column = svg.append("rect").attr("class", "day-column only-screen").attr("y", top - 4).attr("height", box.bottom - top + 4);
      const cell = svg.append("rect").attr("class", "day-cell only-screen").attr("height", strip + 2);
      const overlay = svg.append("rect").attr("class", "overlay only-screen").attr("x", box.left).attr("y", top).attr("width", box.right - box.left).attr("height", box.bottom - top)
        .attr("tabindex", "0").attr("role", "slider").attr("aria-label", "Bit and day: left and right for days, up and down for bits").attr("aria-valuemin", 1).attr("aria-valuemax", Math.max(1, count * shop.bits.length));
      overlay
        .on("pointermove pointerdown", (event) => {
          const [px, py] = d3.pointer(event, svg.node());
          go(Math.floor((py - top) / step), Math.floor(at.x.invert(px)));
        })
        .on("keydown", (event) => {
          const steps = { ArrowRight: [0, 1], ArrowLeft: [0, -1], ArrowDown: [1, 0], ArrowUp: [-1, 0], PageDown: [0, 7], PageUp: [0, -7] };
          if (event.key in steps) go(bit + steps[event.key][0], day + steps[event.key][1]);
          else if (event.key === "Home") go(bit, 0);
          else if (event.key === "End") go(bit, count - 1);
          else return;
          event.preventDefault();
        });
      mark = { column, cell, overlay };
      go(bit, day);
      if (focused) overlay.node().focus({ preventScroll: true });
    }

    dullcast.onResize(container, redraw);
    redraw();
    return { svg: svg.node(), redraw, setUnits() {}, bit: () => bit, day: () => day, go };
  };
})();
