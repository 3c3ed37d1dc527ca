// How wide a figure is drawn: as its container, and on paper as a page at reading size.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const paper = 1200;  // pixels over a page's width: what a wide screen shows fits a page in the hand
  let printing = false;

  // The width for a figure in `container`, at least `least`.
  dullcast.figureWidth = function (container, least) {
    const wide = container.clientWidth || least;
    if (!printing) return Math.max(least, wide);
    return Math.max(least, (paper * wide) / (document.body.clientWidth || wide));
  };

  // Calls redraw() when the container has another width, and before and after the page is printed.
  dullcast.onResize = function (container, redraw) {
    if (typeof ResizeObserver !== "undefined") {
      let wide = container.clientWidth;
      new ResizeObserver(() => {
        if (printing || Math.abs(container.clientWidth - wide) < 2) return;
        wide = container.clientWidth;
        requestAnimationFrame(redraw);
      }).observe(container);
    }
    window.addEventListener("beforeprint", () => ((printing = true), container.isConnected && redraw()));
    window.addEventListener("afterprint", () => ((printing = false), container.isConnected && redraw()));
  };
})();
