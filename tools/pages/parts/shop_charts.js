// A shop's weeks in figures: bits that come in, bench hours against what is open, bits that wait, cutters. Each takes
// (container, shop, options) with what shop_view gives (engine/pages/shop_view.hpp) and gives {svg, setUnits(units),
// redraw()}.
// needs third_party/d3/d3.min.js parts/units.js parts/colours.js parts/figure_size.js parts/sweep_charts.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // The classes of repair, as by_class has them: none, new cutters, pockets, scrap.
  dullcast.repairColours = ["var(--series-6)", "var(--series-0)", "var(--series-4)", "var(--series-1)"];

  const weekOf = (shop, w) => (shop.weeks.begin[w] ? "week of " + shop.weeks.begin[w].text : "week " + (w + 1));

  // An empty chart over the plan's weeks: frame, grid, axes; most: the greatest value to be shown.
  function weekFrame(svg, shop, width, height, most, words) {
    const box = { left: 38, right: width - 6, top: 22, bottom: height - 22 };
    svg.attr("viewBox", "0 0 " + width + " " + height).attr("width", width).attr("height", height);
    const count = shop.weeks.begin.length;
    const x = d3.scaleLinear().domain([0, Math.max(1, count)]).range([box.left, box.right]);
    const y = d3.scaleLinear().domain([0, most > 0 ? most : 1]).nice(4).range([box.bottom, box.top]);
    const ticks = y.ticks(4);
    for (const tick of ticks) svg.append("line").attr("class", "grid").attr("x1", box.left).attr("x2", box.right).attr("y1", y(tick)).attr("y2", y(tick));
    svg.append("g").attr("class", "axis").attr("transform", "translate(" + box.left + ",0)").call(d3.axisLeft(y).ticks(4).tickSizeOuter(0));
    svg.append("line").attr("class", "base").attr("x1", box.left).attr("x2", box.right).attr("y1", box.bottom).attr("y2", box.bottom);
    const every = Math.max(1, Math.ceil(50 / (x(1) - x(0))));
    for (let w = 0; w < count; w += every) {
      if (!shop.weeks.begin[w] || x(w) > box.right - 34) continue;
      svg.append("line").attr("class", "base").attr("x1", x(w)).attr("x2", x(w)).attr("y1", box.bottom).attr("y2", box.bottom + 4);
      svg.append("text").attr("class", "tick").attr("x", x(w)).attr("y", box.bottom + 16).text(shop.weeks.begin[w].short);
    }
    svg.append("text").attr("class", "label").attr("x", 2).attr("y", 12).text(words);
    return { x, y, box, wide: x(1) - x(0), count };
  }

  function whisker(svg, frame, w, low, high, words) {
    if (low === null || high === null) return;
    const x = frame.x(w + 0.5), end = Math.min(4, frame.wide / 4);
    const g = svg.append("g").attr("class", "whisker");
    g.append("line").attr("x1", x).attr("x2", x).attr("y1", frame.y(low)).attr("y2", frame.y(high));
    for (const v of [low, high]) g.append("line").attr("x1", x - end).attr("x2", x + end).attr("y1", frame.y(v)).attr("y2", frame.y(v));
    if (words) g.append("title").text(words);
  }

  const bar = (svg, frame, w, from, to) => svg.append("rect").attr("x", frame.x(w) + Math.min(2, frame.wide * 0.12)).attr("width", Math.max(1, frame.wide - Math.min(4, frame.wide * 0.24)))
    .attr("y", frame.y(to)).attr("height", Math.max(0, frame.y(from) - frame.y(to)));

  // Bits that come in, by what is then due, and the span of eight futures of ten.
  dullcast.shopArrivals = function (container, shop, options = {}) {
    return dullcast.chart(container, shop, options, "arrivals", (svg, width, units) => {
      const arrivals = shop.weeks.arrivals;
      const frame = weekFrame(svg, shop, width, 230, d3.max(arrivals.high.concat(arrivals.mean)) || 0, "bits a week");
      for (let w = 0; w < frame.count; ++w) {
        let from = 0;
        shop.weeks.by_class.forEach((bits, c) => {
          const value = bits[w] || 0;
          bar(svg, frame, w, from, from + value).style("fill", dullcast.repairColours[c]).append("title").text(weekOf(shop, w) + ": " + shop.classes[c] + " " + units.plain(value, 2));
          from += value;
        });
        whisker(svg, frame, w, arrivals.low[w], arrivals.high[w], weekOf(shop, w) + ": mean " + units.plain(arrivals.mean[w], 2) + " bits, eight futures of ten from " + units.plain(arrivals.low[w]) + " to " + units.plain(arrivals.high[w]));
      }
      svg.attr("aria-label", "Bits that come in, week by week, by what is then due. " + (shop.headline.busiest ? "Most in " + shop.headline.busiest + "." : ""));
    });
  };

  // Hours of bench work at one station against what is open. options.which: its place in shop.stations.
  dullcast.shopLoad = function (container, shop, options = {}) {
    return dullcast.chart(container, shop, options, "load", (svg, width, units) => {
      const station = shop.stations[options.which], hours = (s) => (s === null || s === undefined ? null : s / 3600);
      const open = station.open.map(hours), of = (list) => list.map(hours), low = of(station.work.low), mean = of(station.work.mean), high = of(station.work.high);
      const frame = weekFrame(svg, shop, width, 170, d3.max(high.concat(open, mean)) || 0, "hours a week");
      for (let w = 0; w < frame.count; ++w) {
        const full = open[w] !== null && mean[w] > 0.95 * open[w];
        bar(svg, frame, w, 0, mean[w] || 0).attr("class", full ? "week-bar full" : "week-bar");
        whisker(svg, frame, w, low[w], high[w], weekOf(shop, w) + ": " + units.plain(mean[w], 2) + " h on average, eight futures of ten from " + units.plain(low[w], 2) + " to " + units.plain(high[w], 2) + " h; open " + units.plain(open[w], 2) + " h");
      }
      const line = d3.line().defined((v) => v !== null).curve(d3.curveStepAfter).x((_, w) => frame.x(w)).y((v) => frame.y(v));
      svg.append("path").attr("class", "open-line").attr("d", line(open.concat(open.slice(-1))));
      svg.attr("aria-label", station.name + ": hours of bench work a week against what is open. At work " + Math.round(100 * station.utilisation.mean) + " percent of what is open.");
    });
  };

  // Bits that wait at each station, mean.
  dullcast.shopWaiting = function (container, shop, options = {}) {
    return dullcast.chart(container, shop, options, "waiting", (svg, width) => {
      const frame = weekFrame(svg, shop, width, 200, d3.max(shop.stations.flatMap((s) => s.waiting_by_week)) || 0, "bits that wait, mean");
      shop.stations.forEach((station, k) => {
        const { colour, dash } = dullcast.colours.line(k);
        svg.append("path").attr("class", "line strong").style("stroke", colour).style("stroke-dasharray", dash)
          .attr("d", d3.line().defined((v) => v !== null).x((_, w) => frame.x(w + 0.5)).y((v) => frame.y(v))(station.waiting_by_week)).append("title").text(station.name);
      });
      svg.attr("aria-label", "Bits that wait at each station, week by week, mean over the futures.");
    });
  };

  // New cutters of one kind that are needed, and how likely it is that a bit waits for them. options.which: its place in
  // shop.cutters.
  dullcast.shopCutters = function (container, shop, options = {}) {
    return dullcast.chart(container, shop, options, "cutters", (svg, width, units) => {
      const kind = shop.cutters[options.which], weekly = kind.weekly, chance = kind.stock_out_by_week;
      const frame = weekFrame(svg, shop, width, 170, d3.max(weekly.high) || 0, "cutters a week");
      for (let w = 0; w < frame.count; ++w) {
        bar(svg, frame, w, 0, weekly.middle[w] || 0).attr("class", "week-bar");
        whisker(svg, frame, w, weekly.low[w], weekly.high[w], weekOf(shop, w) + ": " + units.plain(weekly.middle[w], 2) + " in the middle, one future in ten more than " + units.plain(weekly.high[w], 2));
      }
      // Beneath, in the same weeks.
      const top = 192, room = 38, height = top + room + 4, most = d3.max(chance) || 0;
      svg.attr("viewBox", "0 0 " + width + " " + height).attr("height", height);
      svg.append("text").attr("class", "label").attr("x", 2).attr("y", top - 6).text(most > 0 ? "chance that a bit waits for them" : "no future in which a bit waits for them");
      svg.append("line").attr("class", "base").attr("x1", frame.box.left).attr("x2", frame.box.right).attr("y1", top + room).attr("y2", top + room);
      const y = d3.scaleLinear().domain([0, Math.max(0.1, most)]).nice(2).range([top + room, top + 4]);
      for (const share of most > 0 ? y.domain() : [])
        svg.append("text").attr("class", "tick").attr("x", frame.box.left - 4).attr("y", y(share)).attr("text-anchor", "end").attr("dominant-baseline", "central").text(Math.round(100 * share) + "%");
      chance.forEach((share, w) => {
        if (!share) return;
        svg.append("rect").attr("class", "stock-out").attr("x", frame.x(w) + 1).attr("width", Math.max(1, frame.wide - 2)).attr("y", Math.min(y(share), top + room - 1.5)).attr("height", Math.max(1.5, top + room - y(share)))
          .append("title").text(weekOf(shop, w) + ": " + Math.round(100 * share) + "\u00a0%");
      });
      svg.attr("aria-label", kind.name + ": cutters needed a week, and the chance that a bit waits for them: at most " + Math.round(100 * (d3.max(chance) || 0)) + " percent in a week.");
    });
  };
})();
