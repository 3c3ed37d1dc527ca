// What pointer and keyboard do to a figure of tracks.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // trackInput(overlay, selected, host): listens on `overlay`; `selected` shows a range while it is dragged over. host:
  // nearest(event) gives {place, py, band}, rowAt(place) the row there, row() the cursor's, rows() first and last of the
  // hole; go(row) and goSoon(row) (with the next picture of the screen) move the cursor; zoomTo(from, to),
  // zoom(factor, place) and reset() change what is shown.
  dullcast.trackInput = function (overlay, selected, host) {
    let began = null;
    overlay
      .on("pointermove", (event) => {
        const here = host.nearest(event);
        if (began && began.band === here.band && Math.abs(here.py - began.py) > 6) {
          began.moved = true;
          selected.attr("visibility", "visible").attr("y", Math.min(here.py, began.py)).attr("height", Math.abs(here.py - began.py));
        }
        host.goSoon(host.rowAt(here.place));
      })
      .on("pointerdown", (event) => {
        const here = host.nearest(event);
        host.go(host.rowAt(here.place));
        if (event.pointerType === "mouse" && event.button === 0) began = here;
      })
      .on("pointerup", (event) => {
        selected.attr("visibility", "hidden");
        const from = began;
        began = null;
        if (!from || !from.moved) return;
        const to = host.nearest(event);
        if (to.band === from.band) host.zoomTo(Math.min(from.place, to.place), Math.max(from.place, to.place));
      })
      .on("pointerleave", () => {
        began = null;
        selected.attr("visibility", "hidden");
      })
      .on("dblclick", host.reset)
      .on("wheel", (event) => {
        // Pages are scrolled with the wheel too: only a figure that has the focus takes it.
        if (!event.ctrlKey && document.activeElement !== overlay.node()) return;
        event.preventDefault();
        host.zoom(event.deltaY > 0 ? 1.25 : 0.8, host.nearest(event).place);
      }, { passive: false })
      .on("keydown", (event) => {
        const [first, last] = host.rows(), page = Math.max(1, Math.round((last - first) / 20));
        const steps = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1, PageDown: page, PageUp: -page };
        if (event.key in steps) host.go(host.row() + steps[event.key]);
        else if (event.key === "Home") host.go(first);
        else if (event.key === "End") host.go(last);
        else if (event.key === "+" || event.key === "=") host.zoom(0.7);
        else if (event.key === "-") host.zoom(1 / 0.7);
        else if (event.key === "0" || event.key === "Escape") host.reset();
        else return;
        event.preventDefault();
      });
  };
})();
