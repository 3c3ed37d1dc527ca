// Colours that the colour-blind tell apart and that stay in order in grey.
// needs third_party/d3/d3.min.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // Okabe & Ito, "Color universal design", 2008: eight colours told apart with any colour vision. The yellow is left
  // out: it is too light for lines on paper. Each has a dash of its own for prints in grey.
  // The colours stand in style.css, lighter ones where the page is dark.
  const dashes = ["", "7 3", "2 2", "9 3 2 3", "4 2", "1 3", "12 3"];

  dullcast.colours = {
    line: (k) => ({ colour: "var(--series-" + (k % dashes.length) + ")", dash: dashes[k % dashes.length] }),
    // Cividis (Nunez, Anderton & Renslow, PLoS ONE 13(7), 2018): even to the eye, the same with any colour vision,
    // and rising in lightness.
    value: (share) => d3.interpolateCividis(Math.max(0, Math.min(1, share))),
    // Black or white, whichever is read on it.
    textOn(colour) {
      const c = d3.rgb(colour);
      const linear = [c.r, c.g, c.b].map((v) => {
        const s = v / 255;
        return s <= 0.04045 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
      });
      // Relative luminance, WCAG 2.1.
      const light = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
      return light > 0.179 ? "#000000" : "#ffffff";
    },
  };
})();
