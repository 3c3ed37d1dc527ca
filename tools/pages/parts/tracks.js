// A run over depth: the formation column and one track a value, all with one cursor.
// needs third_party/d3/d3.min.js parts/units.js parts/colours.js parts/rock_patterns.js parts/figure_size.js
// needs parts/run_rows.js parts/track_list.js parts/track_drawing.js parts/track_input.js
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
    let draw = null;     // how it was drawn

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
      const tracks = dullcast.trackList(view, data, options.only);
      draw = dullcast.trackDrawing({ view, units, along, hole, svg });
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
        draw.drawAxis(svg.append("g").attr("transform", "translate(" + axis + "," + top + ")"), y, high);
        draw.drawColumn(svg.append("g").attr("clip-path", "url(#" + clip + ")"), { x: axis, top, width: column, y, fill, places, first, last, narrow });
        svg.append("rect").attr("x", axis).attr("y", top).attr("width", column).attr("height", high).attr("class", "frame");
        const mine = tracks.slice(b * perBand, (b + 1) * perBand);
        mine.forEach((track, t) => {
          const x0 = left + gap + t * (trackWidth + gap);
          drawn.tracks.push(draw.drawTrack(track, { x0, top, width: trackWidth, high, y, places, first, last, shown, clip }));
        });
        const across = svg.append("g").attr("clip-path", "url(#" + clip + ")");
        draw.drawHappenings(across, { x: axis + column, top, events, y, places, first, last, from: left, to: width });
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
      dullcast.trackInput(overlay, selected, {
        nearest, rowAt, zoomTo, zoom, reset,
        row: () => row,
        rows: () => [drawn.first, drawn.last],
        go(to) {
          row = to;
          showCursor(true);
        },
        goSoon(to) {
          row = to;
          soon();
        },
      });
      drawn.overlay = overlay;
      showCursor(false);
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
      return draw.happenings()
        .filter((e) => Math.abs(draw.placeOf(e, drawn) - drawn.places[k]) < close)
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
        one.value.text(draw.readingOf(one.track, row));
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
        .attr("aria-valuemax", units.convert(draw.placeKind(), drawn.whole[1]).toFixed(1))
        .attr("aria-valuenow", units.convert(draw.placeKind(), place).toFixed(1))
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
