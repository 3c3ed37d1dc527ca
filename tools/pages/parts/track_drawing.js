// What stands in a figure of tracks: the axis, the column of rocks, the tracks and what happened.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // trackDrawing({view, units, along, hole, svg}): functions that draw into `svg` for dullcast.tracks. A place says where:
  // its top, its scale y, the rows first to last and what runs down the page at each (places).
  dullcast.trackDrawing = function ({ view, units, along, hole, svg }) {
    const placeKind = () => (along === "time" ? "minutes" : "depth");

    function drawAxis(g, y, high) {
      const shown = d3.scaleLinear().domain(y.domain().map((v) => units.convert(placeKind(), v))).range([0, high]);
      g.attr("class", "axis").call(d3.axisLeft(shown).ticks(Math.max(4, Math.round(high / 60))).tickSizeOuter(0));
      g.append("text").attr("x", 0).attr("y", -33).attr("class", "unit").attr("text-anchor", "end").text(units.unit(placeKind()));
      g.append("text").attr("x", -34).attr("y", -50).attr("class", "head").attr("text-anchor", "start").text(along === "time" ? "Time" : "Depth");
    }

    // Stretches of the column between two places: layers over depth, what was drilled over time.
    function stretches(place) {
      if (along !== "time") return view.layers.map((layer) => ({ layer, from: layer.top, to: layer.bottom }));
      const all = [];
      for (let k = place.first; k <= place.last; ++k) {
        const layer = view.layers[view.rows.layer[k] - 1];
        const ahead = all[all.length - 1];
        if (ahead && ahead.layer === layer) ahead.to = place.places[k];
        else all.push({ layer, from: ahead ? ahead.to : place.places[k], to: place.places[k] });
      }
      return all;
    }

    function drawColumn(g, place) {
      for (const one of stretches(place)) {
        const y0 = place.top + place.y(one.from), y1 = place.top + place.y(one.to);
        g.append("rect")
          .attr("x", place.x).attr("y", y0).attr("width", place.width).attr("height", Math.max(0, y1 - y0))
          .attr("fill", place.fill(one.layer.pattern)).attr("class", "layer")
          .append("title").text(one.layer.rock + ", " + units.show("depth", one.layer.top) + " to " + units.show("depth", one.layer.bottom) + (one.layer.note ? ": " + one.layer.note : ""));
        const seen0 = Math.max(y0, place.top), seen1 = Math.min(y1, place.top + place.y.range()[1]);
        if (seen1 - seen0 < 13) continue;
        const words = g.append("text").attr("class", place.narrow ? "rock-name narrow" : "rock-name").attr("x", place.x + place.width / 2).attr("y", (seen0 + seen1) / 2).attr("text-anchor", "middle").attr("dominant-baseline", "central");
        const parts = one.layer.rock.split(" ");
        if (place.narrow && parts.length > 1 && seen1 - seen0 > 13 * parts.length)
          parts.forEach((part, k) =>
            words.append("tspan").attr("x", place.x + place.width / 2).attr("dy", k === 0 ? -6 * (parts.length - 1) : 12).text(part));
        else words.text(one.layer.rock);
      }
    }

    function drawTrack(track, at) {
      const g = svg.append("g").attr("class", "track").attr("data-track", track.id);
      const convert = (value) => units.convert(track.kind, value);
      let low = track.zero ? 0 : Infinity, high = -Infinity;
      for (const line of track.lines)
        for (let k = at.first; k <= at.last; ++k) {
          // A price begins endless: its scale is that of the hole's later half.
          if (track.calm && line.x[k] > 4 * (line.x[at.last] || Infinity)) continue;
          const value = line.x[k];
          if (value === null) continue;
          if (value < low) low = value;
          if (value > high) high = value;
        }
      if (!(high > -Infinity)) high = 1;
      if (!(low < Infinity)) low = 0;
      const seen = [], beyond = [];
      (track.marks || []).forEach((mark, k) => {
        // How far it is to where diamond wears faster is what a reader asks first; ruin only when it is near.
        if (k === 0 || high > mark.temperature - 350) (seen.push(mark), (high = Math.max(high, mark.temperature + 12)));
        else beyond.push(mark);
      });
      if (!(high > low)) high = low + (Math.abs(low) || 1);
      const x = d3.scaleLinear().domain([convert(low), convert(high)]).nice(4).range([0, at.width]);
      const place = (value) => at.x0 + x(convert(value));

      g.append("rect").attr("x", at.x0).attr("y", at.top).attr("width", at.width).attr("height", at.high).attr("class", "frame");
      g.append("text").attr("x", at.x0).attr("y", at.top - 50).attr("class", "head").text(track.name);
      const unit = (track.before || "") + units.unit(track.kind);
      g.append("text").attr("x", at.x0 + at.width).attr("y", at.top - (at.width < 98 ? 21 : 50)).attr("class", "unit").attr("text-anchor", "end").text(unit);
      const value = g.append("text").attr("x", at.x0).attr("y", at.top - 33).attr("class", "reading only-screen");
      // As many as stand beside each other.
      let ticks = [];
      for (let count = 5; count > 0; --count) {
        ticks = x.ticks(count);
        const widest = Math.max(...ticks.map((tick) => units.plain(tick, 4).length)) * 6.4 + 7;
        // The outermost lean inwards by half a label.
        if (ticks.length < 2 || widest * (ticks.length - 0.4) < x(ticks[ticks.length - 1]) - x(ticks[0])) break;
        if (count === 1) ticks = [ticks[0], ticks[ticks.length - 1]];
      }
      for (const tick of ticks) {
        const tx = at.x0 + x(tick);
        g.append("line").attr("x1", tx).attr("x2", tx).attr("y1", at.top).attr("y2", at.top + at.high).attr("class", "grid");
        g.append("text").attr("x", tx).attr("y", at.top - 8).attr("class", "tick")
          .attr("text-anchor", tx < at.x0 + 8 ? "start" : tx > at.x0 + at.width - 8 ? "end" : "middle").text(units.plain(tick, 4));
      }
      const inside = g.append("g").attr("clip-path", "url(#" + at.clip + ")");
      for (const mark of seen) {
        const mx = place(mark.temperature);
        inside.append("line").attr("x1", mx).attr("x2", mx).attr("y1", at.top).attr("y2", at.top + at.high).attr("class", "mark mark-" + mark.name).append("title").text(units.say(mark.words));
        g.append("text").attr("class", "mark-name").attr("transform", "translate(" + (mx - 4) + "," + (at.top + at.high - 6) + ") rotate(-90)").text(units.show("temperature", mark.temperature));
      }
      for (const mark of beyond)
        g.append("text").attr("class", "mark-name").attr("x", at.x0 + at.width - 3).attr("y", at.top + 12).attr("text-anchor", "end").text(units.show("temperature", mark.temperature) + " \u2192").append("title").text(units.say(mark.words));
      const path = d3.line().x((k) => k.x).y((k) => k.y).defined((k) => Number.isFinite(k.x));
      const margin = (at.shown[1] - at.shown[0]) * 0.02;
      let from = at.first, to = at.last;
      while (from < to && at.places[from + 1] < at.shown[0] - margin) ++from;
      while (to > from && at.places[to - 1] > at.shown[1] + margin) --to;
      for (const line of track.lines) {
        const points = dullcast.thinned(at.places, line.x, from, to, at.shown[0], at.shown[1], at.high).map((k) => ({
          x: line.x[k] === null ? NaN : Math.max(at.x0 - 1, Math.min(at.x0 + at.width + 1, place(line.x[k]))),
          y: at.top + at.y(at.places[k]),
        }));
        const style = dullcast.colours.line(line.style || 0);
        const drawnLine = inside.append("path").attr("d", path(points)).attr("class", line.faint ? "line faint" : "line");
        if (!line.faint) drawnLine.style("stroke", style.colour).attr("stroke-dasharray", style.dash || null);
        if (line.name) drawnLine.append("title").text(line.name);
      }
      const named = track.lines.filter((l) => l.name);
      return { track, value, place, at, dots: named.length ? named : track.lines, marks: inside };
    }

    function happenings() {
      const said = { layer_entered: 1, hole_finished: 1 };
      return view.events.filter((e) => e.hole === hole && !said[e.kind]);
    }

    function placeOf(event, place) {
      if (along !== "time") return event.depth;
      return event.time - view.rows.time[place.first];
    }

    function drawHappenings(g, place) {
      const due = view.rework_due;
      for (const event of happenings()) {
        const y = place.top + place.y(placeOf(event, place));
        const big = event.kind === "rework_due" || event.kind === "beyond_repair";
        g.append("line").attr("x1", big ? place.x - 110 : place.x).attr("x2", place.to).attr("y1", y).attr("y2", y).attr("class", big ? "due-line" : "event-line");
        g.append("path").attr("d", "M" + (place.x + place.events) + " " + y + "l-11 -5v10z").attr("class", big ? "event-mark due" : "event-mark").attr("data-kind", event.kind)
          .append("title").text((event.cutter ? "Cutter " + event.cutter + ": " : "") + event.words);
        if (big && due)
          g.append("text").attr("class", "due-name").attr("x", place.to - 6).attr("y", y + (place.y(placeOf(event, place)) < 24 ? 15 : -6)).attr("text-anchor", "end")
            .text(event.kind === "rework_due" ? "rework due" : "past repair");
      }
    }

    function readingOf(track, k) {
      const shown = track.lines.filter((l) => !l.faint);
      const told = (value) => {
        const here = units.convert(track.kind, value);
        return track.kind === "share" && here > 0 && here < 0.01 ? "<0.01" : units.plain(here, shown.length > 1 && track.kind === "share" ? 2 : 3);
      };
      return shown.slice().reverse().map((line) => told(line.x[k])).join(" / ");
    }

    return { placeKind, drawAxis, drawColumn, drawTrack, happenings, placeOf, drawHappenings, readingOf };
  };
})();
