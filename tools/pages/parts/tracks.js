// A run over depth: the formation column and one track a value, all with one cursor.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  let made = 0;

  // tracks(container, view, options): draws into the element `container`. view: what run_view gives
  // (engine/pages/run_view.hpp). options, all optional:
  //   units    dullcast.units(...); without it, the view's own
  //   hole     number of the hole to show; without it, that in which rework falls due, else the last with rows
  //   along    "depth" or "time": what runs down the page
  //   only     ids of the tracks to draw: progress, weight, rotary_speed, flow, torque, temperature, wear, chips, cost
  //   height   of one row of tracks, in pixels
  //   onRow    called with the number of the row (from 0, into view.rows) that the cursor has come to
  // Gives {svg, row(), setRow(k), hole(), setHole(n), update(view), setUnits(units), setAlong(word), zoom(factor),
  // reset(), redraw()}. The cursor follows the pointer; with the keyboard it is a slider (arrows, Page Up and Down,
  // Home, End). Dragging over a range of depth zooms into it, as does the wheel once the figure has the focus.
  dullcast.tracks = function (container, view, options = {}) {
    const id = "tracks-" + ++made;
    let units = options.units || dullcast.units(view.units);
    let data = dullcast.runRows(view);
    let along = options.along || "depth";
    let hole = options.hole || usualHole();
    let row = usualRow();
    let window_ = null;  // what is zoomed into, [least, greatest], or null
    let drawn = null;    // what the cursor needs of the last drawing

    const root = d3.select(container);
    root.selectAll("*").remove();
    const svg = root
      .append("svg")
      .attr("class", "figure tracks")
      .attr("id", id)
      .attr("role", "group")
      .attr("aria-label", "Tracks over " + along + " of the hole");
    const status = root.append("p").attr("class", "figure-status");

    function usualHole() {
      const due = view.rework_due && view.rework_due.hole;
      if (due && data.holes.has(due)) return due;
      const all = Array.from(data.holes.keys());
      return all.length ? all[all.length - 1] : 1;
    }

    function usualRow() {
      const span = data.holes.get(hole);
      if (!span) return 0;
      const hottest = data.hottest();
      let best = span[0];
      for (let k = span[0]; k <= span[1]; ++k) if (hottest[k] > hottest[best]) best = k;
      return best;
    }

    // What runs down the page at row k: depth, or minutes since the hole began.
    function placesOf(first, last) {
      const places = new Float64Array(view.rows.depth.length);
      const begin = view.rows.time[first];
      for (let k = first; k <= last; ++k)
        places[k] = along === "time" ? view.rows.time[k] - begin : view.rows.depth[k];
      return places;
    }

    function definitions() {
      const rows = view.rows;
      const marks = Object.fromEntries(view.marks.map((m) => [m.name, m]));
      const all = [
        { id: "progress", name: "Progress", kind: "progress", zero: true, lines: [{ x: rows.rate_of_penetration }] },
        { id: "weight", name: "Weight", kind: "weight", zero: true, lines: [{ x: rows.weight }] },
        { id: "rotary_speed", name: "Rotation", kind: "rotary_speed", zero: true, lines: [{ x: rows.rotary_speed }] },
        {
          id: "flow", name: "Flow", kind: view.gas ? "gas_flow" : "flow", zero: true,
          lines: [{ x: rows.flow_past_bit, name: "past the bit", style: 1 }, { x: rows.flow, name: "pumped" }],
        },
        { id: "torque", name: "Torque", kind: "torque", zero: true, lines: [{ x: rows.torque }] },
        {
          id: "temperature", name: "Cutters", kind: "temperature",
          lines: [{ x: data.coolest(), name: "coolest", style: 5 }, { x: data.hottest(), name: "hottest", style: 1 }],
          marks: [marks.faster_wear, marks.ruin].filter(Boolean),
        },
        {
          id: "wear", name: "Wear", kind: "length", zero: true,
          lines: rows.cutters.worn_height
            .map((x) => ({ x, faint: true }))
            .concat([{ x: data.worst(), name: "most worn", style: 0 }]),
        },
        {
          id: "chips", name: "Chip chance", kind: "share", zero: true,
          lines: [{ x: data.chipOne(), name: "worst edge", style: 3 }, { x: data.chipAny(), name: "any edge", style: 0 }],
        },
      ];
      if (rows.cost_per_metre)
        all.push({
          id: "cost", name: "Cost so far", kind: "per_length", before: view.costs ? view.costs.currency : "",
          zero: true, lines: [{ x: rows.cost_per_metre }], calm: true,
        });
      return options.only ? all.filter((t) => options.only.includes(t.id)) : all;
    }

    function redraw() {
      svg.selectAll("*").remove();
      const width = dullcast.figureWidth(container, 280);
      const span = data.holes.get(hole);
      if (!span) {
        svg.attr("viewBox", "0 0 " + width + " 40").attr("width", width).attr("height", 40);
        svg.append("text").attr("x", 4).attr("y", 24).attr("class", "label").text("No rows were kept of this hole.");
        drawn = null;
        return;
      }
      const [first, last] = span;
      const places = placesOf(first, last);
      const bottom = along === "time" ? places[last] : Math.max(places[last], d3.max(view.layers, (l) => l.bottom));
      const whole = [0, bottom || 1];
      const shown = window_ || whole;
      const narrow = width < 640;
      const axis = narrow ? 36 : 46, column = narrow ? 54 : 104, events = narrow ? 12 : 16, gap = narrow ? 9 : 11;
      const left = axis + column + events;
      const tracks = definitions();
      const least = narrow ? 72 : 88;
      const inRow = Math.max(1, Math.min(tracks.length, Math.floor((width - left) / (least + gap))));
      const bands = Math.ceil(tracks.length / inRow);
      const high = options.height || (narrow ? 330 : bands > 1 ? 420 : 560);
      const head = 64, foot = 10;
      const trackWidth = (width - left) / Math.ceil(tracks.length / bands) - gap;
      const height = bands * (head + high + foot);
      svg.attr("viewBox", "0 0 " + width + " " + height).attr("width", width).attr("height", height);
      const defs = svg.append("defs");
      const fill = dullcast.rockPatterns(defs);
      const y = d3.scaleLinear().domain(shown).range([0, high]);
      const perBand = Math.ceil(tracks.length / bands);
      drawn = { y, places, first, last, head, high, left, bands: [], tracks: [], shown, whole, width };

      for (let b = 0; b < bands; ++b) {
        const top = b * (head + high + foot) + head;
        const clip = id + "-clip-" + b;
        defs.append("clipPath").attr("id", clip).append("rect").attr("x", 0).attr("y", top).attr("width", width).attr("height", high);
        drawAxis(svg.append("g").attr("transform", "translate(" + axis + "," + top + ")"), y, high);
        drawColumn(svg.append("g").attr("clip-path", "url(#" + clip + ")"), { x: axis, top, width: column, y, fill, places, first, last, narrow });
        svg.append("rect").attr("x", axis).attr("y", top).attr("width", column).attr("height", high).attr("class", "frame");
        const mine = tracks.slice(b * perBand, (b + 1) * perBand);
        mine.forEach((track, t) => {
          const x0 = left + gap + t * (trackWidth + gap);
          drawTrack(track, { x0, top, width: trackWidth, high, y, places, first, last, shown, clip });
        });
        const across = svg.append("g").attr("clip-path", "url(#" + clip + ")");
        drawHappenings(across, { x: axis + column, top, events, y, places, first, last, from: left, to: width });
        const cursor = across.append("line").attr("class", "cursor only-screen").attr("x1", axis).attr("x2", width);
        drawn.bands.push({ top, cursor });
      }
      const overlay = svg
        .append("rect")
        .attr("class", "overlay only-screen")
        .attr("x", axis)
        .attr("y", head)
        .attr("width", width - axis)
        .attr("height", height - head)
        .attr("tabindex", 0)
        .attr("role", "slider")
        .attr("aria-orientation", "vertical")
        .attr("aria-label", along === "time" ? "Time of the cursor" : "Depth of the cursor");
      const selected = svg.append("rect").attr("class", "selected only-screen").attr("x", axis).attr("width", width - axis).attr("visibility", "hidden");
      listen(overlay, selected);
      drawn.overlay = overlay;
      showCursor(false);
    }

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
      drawn.tracks.push({ track, value, place, at, dots: named.length ? named : track.lines, marks: inside });
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

    function sentence(k) {
      const rows = view.rows;
      const layer = view.layers[rows.layer[k] - 1];
      const hottest = data.greatest("flat_temperature", k), worn = data.greatest("worn_height", k);
      return (
        "Hole " + rows.hole[k] + ", " + units.show("depth", rows.depth[k]) + " in " + (layer ? layer.rock : "?") +
        ": progress " + units.show("progress", rows.rate_of_penetration[k]) + ", hottest cutter " + (hottest + 1) + " at " +
        units.show("temperature", rows.cutters.flat_temperature[hottest][k]) + ", most worn cutter " + (worn + 1) + " by " +
        units.show("length", rows.cutters.worn_height[worn][k]) + "."
      );
    }

    function near(k) {
      const close = (drawn.shown[1] - drawn.shown[0]) * 0.012;
      return happenings()
        .filter((e) => Math.abs(placeOf(e, drawn) - drawn.places[k]) < close)
        .slice(0, 3)
        .map((e) => (e.cutter ? "Cutter " + e.cutter + ": " : "") + e.words);
    }

    function showCursor(tell) {
      if (!drawn) return;
      row = Math.max(drawn.first, Math.min(drawn.last, row));
      const place = drawn.places[row];
      const y = drawn.y(place);
      const inside = place >= drawn.shown[0] && place <= drawn.shown[1];
      for (const band of drawn.bands)
        band.cursor.attr("y1", band.top + y).attr("y2", band.top + y).attr("visibility", inside ? "visible" : "hidden");
      for (const one of drawn.tracks) {
        one.value.text(readingOf(one.track, row));
        one.marks.selectAll(".dot").remove();
        if (inside)
          one.dots.forEach((line, d) => {
            if (line.x[row] === null) return;
            one.marks.append("circle").attr("class", "dot only-screen").attr("r", 3.2).attr("cx", one.place(line.x[row])).attr("cy", one.at.top + y)
              .style("fill", dullcast.colours.line(line.style || 0).colour);
          });
      }
      const words = [sentence(row)].concat(near(row)).join(" ");
      status.text(words);
      drawn.overlay
        .attr("aria-valuemin", 0)
        .attr("aria-valuemax", units.convert(placeKind(), drawn.whole[1]).toFixed(1))
        .attr("aria-valuenow", units.convert(placeKind(), place).toFixed(1))
        .attr("aria-valuetext", words);
      if (tell && options.onRow) options.onRow(row);
    }

    function nearest(event) {
      const [, py] = d3.pointer(event, svg.node());
      const band = drawn.bands.reduce((best, b) => (py >= b.top - drawn.head ? b : best), drawn.bands[0]);
      const place = drawn.y.invert(Math.max(0, Math.min(drawn.high, py - band.top)));
      return { place, py, band };
    }

    function rowAt(place) {
      let low = drawn.first, high = drawn.last;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (drawn.places[middle] < place) low = middle;
        else high = middle;
      }
      return Math.abs(drawn.places[low] - place) <= Math.abs(drawn.places[high] - place) ? low : high;
    }

    function zoomTo(from, to) {
      const smallest = drawn.whole[1] / 2000;
      if (to - from < smallest) return;
      from = Math.max(drawn.whole[0], from);
      to = Math.min(drawn.whole[1], to);
      window_ = from <= drawn.whole[0] && to >= drawn.whole[1] ? null : [from, to];
      const focused = document.activeElement && document.activeElement === drawn.overlay.node();
      redraw();
      if (focused) drawn.overlay.node().focus({ preventScroll: true });
    }

    function zoom(factor, middle) {
      if (!drawn) return;
      const at = middle === undefined ? drawn.places[row] : middle;
      const [from, to] = drawn.shown;
      zoomTo(at - (at - from) * factor, at + (to - at) * factor);
    }

    // The pointer moves more often than a screen is drawn.
    let waiting = false;
    function soon() {
      if (waiting) return;
      waiting = true;
      requestAnimationFrame(() => ((waiting = false), showCursor(true)));
    }

    function listen(overlay, selected) {
      let began = null;
      overlay
        .on("pointermove", (event) => {
          const here = nearest(event);
          if (began && began.band === here.band && Math.abs(here.py - began.py) > 6) {
            began.moved = true;
            selected.attr("visibility", "visible").attr("y", Math.min(here.py, began.py)).attr("height", Math.abs(here.py - began.py));
          }
          row = rowAt(here.place);
          soon();
        })
        .on("pointerdown", (event) => {
          const here = nearest(event);
          row = rowAt(here.place);
          showCursor(true);
          if (event.pointerType === "mouse" && event.button === 0) began = here;
        })
        .on("pointerup", (event) => {
          selected.attr("visibility", "hidden");
          const from = began;
          began = null;
          if (!from || !from.moved) return;
          const to = nearest(event);
          if (to.band === from.band) zoomTo(Math.min(from.place, to.place), Math.max(from.place, to.place));
        })
        .on("pointerleave", () => {
          began = null;
          selected.attr("visibility", "hidden");
        })
        .on("dblclick", reset)
        .on("wheel", (event) => {
          if (!event.ctrlKey && document.activeElement !== overlay.node()) return;
          event.preventDefault();
          zoom(event.deltaY > 0 ? 1.25 : 0.8, nearest(event).place);
        }, { passive: false })
        .on("keydown", (event) => {
          const page = Math.max(1, Math.round((drawn.last - drawn.first) / 20));
          const steps = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1, PageDown: page, PageUp: -page };
          if (event.key in steps) row += steps[event.key];
          else if (event.key === "Home") row = drawn.first;
          else if (event.key === "End") row = drawn.last;
          else if (event.key === "+" || event.key === "=") return zoom(0.7);
          else if (event.key === "-") return zoom(1 / 0.7);
          else if (event.key === "0" || event.key === "Escape") return reset();
          else return;
          event.preventDefault();
          showCursor(true);
        });
    }

    function reset() {
      window_ = null;
      redraw();
    }

    dullcast.onResize(container, redraw);
    redraw();
    if (options.onRow && drawn) options.onRow(row);

    return {
      svg: svg.node(),
      row: () => row,
      setRow(k) {
        row = k;
        const at = view.rows.hole[k];
        if (at !== undefined && at !== hole) (hole = at), (window_ = null), redraw();
        showCursor(false);
      },
      hole: () => hole,
      setHole(n) {
        hole = n;
        window_ = null;
        row = usualRow();
        redraw();
        if (options.onRow && drawn) options.onRow(row);
      },
      setAlong(word) {
        along = word;
        window_ = null;
        redraw();
      },
      setUnits(next) {
        units = next;
        redraw();
      },
      update(next) {
        const place = view.rows.depth[row];
        view = next;
        data = dullcast.runRows(view);
        if (!data.holes.has(hole)) hole = usualHole();
        redraw();
        if (drawn && along === "depth") (row = rowAt(place)), showCursor(false);
        if (options.onRow && drawn) options.onRow(row);
      },
      zoom,
      reset,
      redraw,
    };
  };
})();
