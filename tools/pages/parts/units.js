// Values on their way to a reader. Pages hold SI; what is shown is in field units, in SI or in both. Factors as in
// engine/base/display.hpp, which a test holds them against.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  const foot = 0.3048, inch = 0.0254, poundForce = 4.4482216152605, gallon = 3.785411784e-3;

  // kind: [field unit, factor, offset, SI unit, factor, offset]
  const kinds = {
    depth: ["ft", 1 / foot, 0, "m", 1, 0],
    length: ["in", 1 / inch, 0, "mm", 1e3, 0],
    weight: ["lbf", 1 / poundForce, 0, "kN", 1e-3, 0],
    torque: ["ft lbf", 1 / (foot * poundForce), 0, "N m", 1, 0],
    progress: ["ft/h", 3600 / foot, 0, "m/h", 3600, 0],
    fluid_speed: ["ft/min", 60 / foot, 0, "m/s", 1, 0],
    rotary_speed: ["rpm", 60, 0, "rpm", 60, 0],
    flow: ["gal/min", 60 / gallon, 0, "L/min", 6e4, 0],
    gas_flow: ["ft3/min", 60 / (foot * foot * foot), 0, "m3/min", 60, 0],
    temperature: ["\u00b0F", 1.8, -459.67, "\u00b0C", 1, -273.15],
    pressure: ["psi", (inch * inch) / poundForce, 0, "MPa", 1e-6, 0],
    hours: ["h", 1 / 3600, 0, "h", 1 / 3600, 0],
    minutes: ["min", 1 / 60, 0, "min", 1 / 60, 0],
    share: ["%", 100, 0, "%", 100, 0],
    number: ["", 1, 0, "", 1, 0],
    per_length: ["/ft", foot, 0, "/m", 1, 0],
    area: ["in\u00b2", 1 / (inch * inch), 0, "mm\u00b2", 1e6, 0],
    angle: ["\u00b0", 180 / Math.PI, 0, "\u00b0", 180 / Math.PI, 0],
  };

  // So many significant figures, whole numbers with all their places, no exponents.
  function plain(value, figures = 3) {
    if (value === null || value === undefined || !Number.isFinite(value)) return "\u2013";
    if (value === 0) return "0";
    const magnitude = Math.floor(Math.log10(Math.abs(value)));
    const places = Math.max(0, Math.min(12, figures - 1 - magnitude));
    const text = value.toFixed(places);
    const short = places > 0 ? text.replace(/\.?0+$/, "") : text;
    return (short === "-0" ? "0" : short).replace("-", "\u2212");
  }

  // units(system): system is "field", "si" or "both".
  dullcast.units = function (system) {
    // What a page can show beside an axis: one system, field where both are asked for.
    const side = system === "si" ? 3 : 0;
    function kindOf(kind) {
      const found = kinds[kind];
      if (!found) throw new Error("units: there is no kind " + kind);
      return found;
    }
    function convert(kind, value) {
      const k = kindOf(kind);
      return value === null || value === undefined ? NaN : value * k[side + 1] + k[side + 2];
    }
    function back(kind, shown) {
      const k = kindOf(kind);
      return (shown - k[side + 2]) / k[side + 1];
    }
    function unit(kind) {
      return kindOf(kind)[side];
    }
    function one(kind, value, figures, at) {
      const k = kindOf(kind);
      const text = plain(value === null || value === undefined ? NaN : value * k[at + 1] + k[at + 2], figures);
      return text === "\u2013" || k[at] === "" ? text : text + (k[at] === "\u00b0" ? k[at] : "\u00a0" + k[at]);
    }
    function show(kind, value, figures = 3) {
      const text = one(kind, value, figures, side);
      if (system !== "both" || kindOf(kind)[0] === kindOf(kind)[3] || text === "\u2013") return text;
      return text + " (" + one(kind, value, figures, 3) + ")";
    }
    // A sentence that C++ told in both systems, or a text that needs none.
    const degrees = (text) => text.replace(/\bdegF\b/g, "\u00b0F").replace(/\bdegC\b/g, "\u00b0C");
    const say = (sentence) => degrees(told(sentence));
    function told(sentence) {
      if (sentence === null || sentence === undefined) return "";
      if (typeof sentence === "string") return sentence;
      if (system === "both" && sentence.field !== sentence.si) return sentence.field + " (" + sentence.si + ")";
      return system === "si" ? sentence.si : sentence.field;
    }
    return { system, convert, back, unit, show, say, plain };
  };
  dullcast.units.kinds = kinds;
})();
