// Figures of the lesson in a reader's units; see tools/pages/parts/units.js. Settings are kept in field units, as drillers
// state them, and findings in SI.
// needs parts/units.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const foot = 0.3048, poundForce = 4.4482216152605, gallon = 3.785411784e-3;

  dullcast.lessonWords = function (system) {
    const units = dullcast.units(system);
    const field = system !== "si";
    const grouped = (text) => text.replace(/^(\u2212?\d+)(?=\d{3}\b)/, "$1,");
    const figure = (kind, value, figures) => grouped(units.show(kind, value, figures));
    const rounded = (value, figures) => units.plain(value, figures);
    // In feet per hour a bit that skids still shows; under a hundredth it does not drill.
    const rate = (v) => (v > 0 ? figure("progress", v, 3) : "no progress");
    const wearShare = field ? 1200 : 1e5;  // inches by 100 ft, mm by 100 m
    const say = {
      system,
      unit: units.unit,
      degrees: (T) => units.convert("temperature", T),
      kelvin: (shown) => units.back("temperature", shown),
      T: (T) => grouped(Math.round(units.convert("temperature", T)) + "\u00a0" + units.unit("temperature")),
      rate,
      lbf: (v) => figure("weight", v * poundForce, 3),
      lbfNumber: (v) => units.convert("weight", v * poundForce),
      gpm: (v) => figure("flow", (v * gallon) / 60, 3),
      gpmNumber: (v) => units.convert("flow", (v * gallon) / 60),
      air: (v) => figure("gas_flow", (v * foot * foot * foot) / 60, 3),
      airNumber: (v) => units.convert("gas_flow", (v * foot * foot * foot) / 60),
      mm: (v) => units.show("length", v / 1000, 2),
      mmNumber: (v) => units.convert("length", v / 1000),
      length: (v) => units.show("length", v, 2),
      feet: (v) => (field ? v + " feet" : Math.round(v * foot) + " m"),
      feetNumber: (v) => units.convert("depth", v * foot),
      depth: (v) => figure("depth", v, 3),
      depthNumber: (v) => units.convert("depth", v),
      wearUnit: field ? "in/100 ft" : "mm/100 m",
      wearRate: (v) => (field ? v * wearShare : v * wearShare),
      wear: (v) => (v > 0 ? rounded(v * wearShare, 2) + (field ? "\u00a0in/100\u00a0ft" : "\u00a0mm/100\u00a0m") : "\u2013"),
      wearLength: (v) => (v > 0 ? rounded(v * wearShare, 2) + (field ? "\u00a0in" : "\u00a0mm") : "\u2013"),
      wearPer: field ? "by 100 ft" : "by 100 m",
      power: (v) => (field ? rounded(v / 745.69987, 3) + " hp" : rounded(v / 1000, 3) + " kW"),
      moneyNumber: (perMetre) => units.convert("per_length", perMetre),
      money: (perMetre) => "$" + rounded(units.convert("per_length", perMetre), 3) + units.unit("per_length"),
      times: (v) => (v >= 1.05 || v < 0.95 ? rounded(v, 2) + " times" : "about once"),
      share: (v) => (v > 0 && v < 1e-4 ? "under 0.01 %" : rounded(100 * v, 2) + " %"),
      count: (n, what) => n + " " + what + (n === 1 ? "" : "s"),
      chipNumber: (v) => (v < 0.001 ? "next to none" : rounded(v, 2)),
      chips: (v) => (v < 0.001 ? "next to no chipped edges" : rounded(v, 2) + " chipped edges"),
      seconds: (t) => (t < 0.05 ? "no time at all" : t < 10 ? rounded(t, 2) + " s"
                       : t < 100 ? Math.round(t) + " s" : Math.floor(t / 60) + " min " + Math.round(t % 60) + " s"),
    };
    return say;
  };
})();
