// The life of the bit over the metres it drilled: worn height, hottest flat of each hole, when rework falls due and how
// sure that is. Several runs share the axes.
// needs third_party/d3/d3.min.js parts/units.js parts/colours.js parts/figure_size.js parts/run_rows.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  let made = 0;

  // lifeChart(container, views, options): views: one or more of what run_view gives. options: units; onHole(number, view):
  // called for a hole that the reader points at and chooses (of the first run). Gives {svg, setUnits(units), setHole(n),
  // redraw()}.
  dullcast.lifeChart = function (container, views, options = {}) {
    const id = "life-" + ++made;
    let units = options.units || dullcast.units(views[0].units);
    let hole = null;
    const root = d3.select(container);
    root.selectAll("*").remove();
    const svg = root.append("svg").attr("class", "figure life").attr("id", id).attr("role", "img");
    const datas = views.map((v) => dullcast.runRows(v));

    function redraw() {
      svg.selectAll("*").remove();
      const width = dullcast.figureWidth(container, 300), one = views.length === 1;
      const narrow = width < 560;
      const left = 52, right = 16, top = one ? 62 : 26 + 20 * views.length, high = narrow ? 170 : 210, gap = 44, low = 140;
      const height = top + high + gap + low + 44;
      svg.attr("viewBox", "0 0 " + width + " " + height).attr("width", width).attr("height", height);
      svg.append("clipPath").attr("id", id + "-clip").append("rect").attr("x", left).attr("y", 0).attr("width", width - left - right).attr("height", height);
      const end = d3.max(views, (v) => d3.max([v.rows.footage[v.rows.footage.length - 1] || 0].concat(v.band.map((b) => (b.due ? b.footage : 0))))) || 1;
      const x = d3.scaleLinear().domain([0, units.convert("depth", end)]).range([left, width - right]);
      const at = (metres) => x(units.convert("depth", metres));
      const mostWorn = d3.max(datas, (d) => d3.max(d.worst())) || 1e-4;
      const allowed = d3.min(views, (v) => {
        const rule = v.rules.find((r) => r.rule === "worn_height");
        return rule && rule.used > 0.35 ? ruleHeight(v) : undefined;
      });
      const wear = d3.scaleLinear().domain([0, units.convert("length", Math.max(mostWorn, allowed || 0) * 1.04)]).nice(4).range([top + high, top]);
      const coldest = d3.min(views, (v) => v.fluid.inlet_temperature);
      const hottest = d3.max(datas, (d) => d3.max(d.hottest())) || 400;
      const marks = views[0].marks.filter((m, k) => k === 0 || hottest > m.temperature - 350);
      const highest = Math.max(hottest, d3.max(marks, (m) => m.temperature) || 0);
      const warm = d3.scaleLinear().domain([units.convert("temperature", coldest), units.convert("temperature", highest)]).nice(4).range([top + high + gap + low, top + high + gap]);
      const bottom = top + high + gap + low;

      panel(wear, top, high, one ? "Worn height, every cutter" : "Worn height, most worn cutter", units.unit("length"), narrow ? 3 : 5);
      panel(warm, top + high + gap, low, "Hottest cutter", units.unit("temperature"), 4);
      const axis = svg.append("g").attr("class", "axis").attr("transform", "translate(0," + bottom + ")").call(d3.axisBottom(x).ticks(narrow ? 4 : 9).tickSizeOuter(0));
      axis.append("text").attr("class", "unit").attr("x", width - right).attr("y", 34).attr("text-anchor", "end").text("drilled in all holes, " + units.unit("depth"));

      function panel(scale, y, h, name, unit, ticks) {
        const g = svg.append("g");
        g.append("rect").attr("x", left).attr("y", y).attr("width", width - left - right).attr("height", h).attr("class", "frame");
        for (const tick of scale.ticks(ticks)) {
          g.append("line").attr("class", "grid").attr("x1", left).attr("x2", width - right).attr("y1", scale(tick)).attr("y2", scale(tick));
          g.append("text").attr("class", "tick").attr("x", left - 6).attr("y", scale(tick)).attr("text-anchor", "end").attr("dominant-baseline", "central").text(units.plain(tick, 4));
        }
        g.append("text").attr("class", "head").attr("x", left).attr("y", y - 8).text(name);
        g.append("text").attr("class", "unit").attr("x", left - 6).attr("y", y - 8).attr("text-anchor", "end").text(unit);
      }

      const inside = svg.append("g").attr("clip-path", "url(#" + id + "-clip)");
      if (one) drawBand(inside, views[0]);
      for (const mark of marks) {
        const y = warm(units.convert("temperature", mark.temperature));
        inside.append("line").attr("class", "mark mark-" + mark.name).attr("x1", left).attr("x2", width - right).attr("y1", y).attr("y2", y).append("title").text(units.say(mark.words));
        inside.append("text").attr("class", "mark-name").attr("x", left + 6).attr("y", y - 4).text(units.show("temperature", mark.temperature));
      }
      if (allowed) {
        const y = wear(units.convert("length", allowed));
        inside.append("line").attr("class", "rule-line").attr("x1", left).attr("x2", width - right).attr("y1", y).attr("y2", y);
        inside.append("text").attr("class", "mark-name").attr("x", left + 6).attr("y", y - 4).text("rework: a cutter worn " + units.show("length", allowed));
      }
      views.forEach((view, v) => {
        const data = datas[v], style = dullcast.colours.line(v), footage = view.rows.footage;
        if (one)
          view.rows.cutters.worn_height.forEach((values) => curve(footage, values, wear, "length", "line faint"));
        curve(footage, data.worst(), wear, "length", "line strong", style);
        // Of few holes a line says more than a bar a hole.
        if (data.holes.size <= 3) curve(footage, data.hottest(), warm, "temperature", "line strong", one ? dullcast.colours.line(1) : style);
        else perHole(view, data).forEach((h) => {
          const rect = inside.append("rect").attr("class", "hole-heat").attr("x", at(h.from)).attr("width", Math.max(1, at(h.to) - at(h.from) - (at(h.to) - at(h.from) > 4 ? 1 : 0)))
            .attr("y", warm(units.convert("temperature", h.hottest))).attr("height", one ? bottom - warm(units.convert("temperature", h.hottest)) : 2.5)
            .style("fill", one ? dullcast.colours.value((h.hottest - coldest) / (highest - coldest)) : style.colour);
          rect.append("title").text("Hole " + h.hole + ": hottest " + units.show("temperature", h.hottest));
        });
        if (!one) {
          svg.append("line").attr("class", "line strong").style("stroke", style.colour).attr("stroke-dasharray", style.dash || null).attr("x1", left).attr("x2", left + 30).attr("y1", 14 + 20 * v).attr("y2", 14 + 20 * v);
          svg.append("text").attr("class", "label").attr("x", left + 38).attr("y", 18 + 20 * v).text((v + 1) + "  " + view.name.replace(/^.*\//, ""));
        }
        drawDue(inside, view, v);
      });
      if (one) holesOfFirst();

      function curve(footage, values, scale, kind, name, style) {
        const points = dullcast.thinned(footage, values, 0, footage.length - 1, 0, footage[footage.length - 1] || 1, width);
        const path = d3.line().x((k) => at(footage[k])).y((k) => scale(units.convert(kind, values[k]))).defined((k) => values[k] !== null);
        const drawnLine = inside.append("path").attr("class", name).attr("d", path(points));
        if (style) drawnLine.style("stroke", style.colour).attr("stroke-dasharray", style.dash || null);
      }

      function drawBand(g, view) {
        const ends = Object.fromEntries(view.band.map((b) => [b.end, b]));
        if (!ends.low || !ends.high) return;
        if (!ends.low.due) {
          g.append("text").attr("class", "label").attr("x", width - right).attr("y", top - 40).attr("text-anchor", "end").text("low life: " + ends.low.words + "; high life: " + ends.high.words);
          return;
        }
        const from = at(ends.low.footage), to = ends.high.due ? at(ends.high.footage) : width - right;
        g.append("rect").attr("class", "band").attr("x", from).attr("width", Math.max(2, to - from)).attr("y", top).attr("height", bottom - top)
          .append("title").text("rework falls due in here in eight cases of ten");
        const y = top - 40;
        g.append("path").attr("class", "band-bracket").attr("d", "M" + from + " " + (y - 6) + "v12M" + from + " " + y + "H" + (to - 2) + (ends.high.due ? "M" + to + " " + (y - 6) + "v12" : "m-7 -5l7 5l-7 5"));
        const low = "low " + ends.low.words, high = "high " + ends.high.words;
        if (to - from > 7 * (low.length + high.length)) {
          g.append("text").attr("class", "label").attr("x", from + 5).attr("y", y - 8).text(low);
          g.append("text").attr("class", "label").attr("x", to - 6).attr("y", y - 8).attr("text-anchor", "end").text(high);
        } else {
          const late = from > (left + width - right) / 2;
          g.append("text").attr("class", "label").attr("x", late ? to : from).attr("y", y - 8).attr("text-anchor", late ? "end" : "start").text(low + ", " + high);
        }
      }

      function drawDue(g, view, v) {
        const due = view.rework_due;
        if (!due) return;
        const px = at(due.footage), style = dullcast.colours.line(v);
        const lineDrawn = g.append("line").attr("class", "due-line").attr("x1", px).attr("x2", px).attr("y1", one ? top - 32 : top).attr("y2", bottom);
        if (!one) lineDrawn.style("stroke", style.colour).attr("stroke-dasharray", style.dash || null);
        const right_ = px > width - right - 130;
        if (one)
          g.append("text").attr("class", "due-name").attr("x", px + (right_ ? -6 : 6)).attr("y", top - 22).attr("text-anchor", right_ ? "end" : "start").text("rework due, hole " + due.hole);
      }

      function holesOfFirst() {
        const shown = perHole(views[0], datas[0]);
        for (const h of shown) {
          svg.append("rect").attr("class", h.hole === hole ? "hole-pick picked only-screen" : "hole-pick only-screen").attr("x", at(h.from)).attr("y", top).attr("width", Math.max(2, at(h.to) - at(h.from))).attr("height", bottom - top)
            .on("click", () => options.onHole && options.onHole(h.hole, views[0]))
            .append("title").text("Hole " + h.hole + ": look at it");
        }
      }

      svg.attr("aria-label", views.map((v) => v.title + ": rework due " + v.due_words).join("; "));
    }

    function ruleHeight(view) {
      const rule = view.rules.find((r) => r.rule === "worn_height");
      return rule.allowance;
    }

    function perHole(view, data) {
      const hottest = data.hottest();
      return Array.from(data.holes, ([number, [first, last]]) => {
        let most = 0;
        for (let k = first; k <= last; ++k) most = Math.max(most, hottest[k] || 0);
        return { hole: number, from: view.rows.footage[first], to: view.rows.footage[last], hottest: most };
      });
    }

    dullcast.onResize(container, redraw);
    redraw();
    return {
      svg: svg.node(),
      setUnits(next) {
        units = next;
        redraw();
      },
      setHole(n) {
        hole = n;
        redraw();
      },
      redraw,
    };
  };
})();
