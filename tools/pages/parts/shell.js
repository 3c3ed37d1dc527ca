// What stands round every page: units, light and dark, and figures that can be saved.
// needs parts/units.js parts/save_figure.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // Makes an element with attributes, text and children.
  dullcast.make = function (name, attributes = {}, ...children) {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes))
      if (value !== null && value !== undefined && value !== false) made.setAttribute(key, value === true ? "" : value);
    for (const child of children.flat()) if (child !== null && child !== undefined) made.append(child);
    return made;
  };

  // A value that the page's own <script type="application/json"> holds.
  dullcast.pageData = function (id) {
    const holder = document.getElementById(id);
    return holder ? JSON.parse(holder.textContent) : null;
  };

  // Switches for units and for light and dark, put into `place`. start: "field", "si" or "both"; onUnits(units) is
  // called for every change. Gives {units(), dark(on)}.
  dullcast.shell = function (place, start, onUnits) {
    const make = dullcast.make;
    let units = dullcast.units(start);
    const select = make("select", { id: "units", "aria-label": "Units" },
      [["field", "Field units"], ["si", "SI units"], ["both", "Both units"]].map(([value, words]) => make("option", { value, selected: value === start }, words)));
    select.addEventListener("change", () => {
      units = dullcast.units(select.value);
      onUnits(units);
    });
    const theme = make("button", { id: "theme", type: "button", "aria-pressed": "false" }, "Dark");
    const darkAtHome = window.matchMedia("(prefers-color-scheme: dark)");
    let dark = darkAtHome.matches;
    const set = (on) => {
      dark = on;
      document.documentElement.dataset.theme = on ? "dark" : "light";
      theme.setAttribute("aria-pressed", String(on));
      theme.textContent = on ? "Light" : "Dark";
      theme.setAttribute("aria-label", on ? "Show the page light" : "Show the page dark");
    };
    set(dark);
    theme.addEventListener("click", () => set(!dark));
    // Paper is white.
    let before = null;
    window.addEventListener("beforeprint", () => ((before = dark), set(false)));
    window.addEventListener("afterprint", () => before !== null && set(before));
    const print = make("button", { id: "print", type: "button" }, "Print");
    print.addEventListener("click", () => window.print());
    place.append(select, theme, print);
    return { units: () => units, dark: set };
  };

  // What a page's figures are and the usual cautions, from a view, and how the page came about, put into `place`.
  dullcast.pageFoot = function (place, view, made) {
    const make = dullcast.make;
    const list = (id, label, title, sentences) =>
      make("section", { id, "aria-label": label }, make("h2", {}, title), make("ul", {}, sentences.map((words) => make("li", {}, words))));
    place.replaceChildren(list("estimates", "What the figures are", "What these figures are", view.estimates),
      list("cautions", "Cautions", "Cautions", view.cautions), make("p", { class: "made" }, made));
  };

  // Two small buttons that save the figure which `svgOf` gives, with a note at its foot.
  dullcast.saveButtons = function (name, svgOf, note) {
    const make = dullcast.make;
    const svg = make("button", { type: "button", class: "small", "aria-label": "Save " + name + " as SVG" }, "SVG");
    const png = make("button", { type: "button", class: "small", "aria-label": "Save " + name + " as PNG" }, "PNG");
    svg.addEventListener("click", () => dullcast.saveSvg(svgOf(), name, note));
    png.addEventListener("click", () => dullcast.savePng(svgOf(), name, note));
    return make("span", { class: "save only-screen" }, svg, png);
  };
})();
