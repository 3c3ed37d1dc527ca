// What the form lets people change: made from the resolved scenario. A field's place is a path as --set takes it.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // How a quantity is written for the engine, in either system of units: [field, SI].
  const written = {weight: ["lbf", "kN"], rotary_speed: ["rpm", "rpm"], flow: ["gal/min", "l/min"], gas_flow: ["ft3/min", "m3/min"],
                   progress: ["ft/h", "m/h"], depth: ["ft", "m"], length: ["in", "mm"], hours: ["h", "h"], minutes: ["min", "min"],
                   temperature: ["degF", "degC"]};

  const number = (text) => parseFloat(text);

  /// Fields of a resolved scenario, in groups: [{title, note, fields: [{path, label, kind | choices | plain, base}]}]. `base`
  /// is the value in SI (kind), the word (choices) or the number (plain).
  function fieldsOf(resolved, gas, lists) {
    const flowKind = gas ? "gas_flow" : "flow";
    const groups = [];
    const add = (title, fields, note) => groups.push({title, note, fields: fields.filter((f) => f.base !== undefined && f.base !== "")});
    const quantity = (path, label, kind, text) => ({path, label, kind, base: text === undefined ? undefined : number(text)});
    const choice = (path, label, choices, base) => ({path, label, choices, base});

    const bit = resolved.bit || {}, cutter = bit.cutter || {};
    const wears = typeof bit.starting_wear === "string" ? bit.starting_wear.match(/[-\d.e+]+(?= m)/g) || [] : [];
    const even = wears.length > 0 && wears.every((w) => w === wears[0]);
    add("Bit", [
      choice("bit.like", "Start from this bit of the library", ["as the scenario says"].concat(lists.bits), "as the scenario says"),
      choice("bit.grade", "Cutter grade", lists.grades, bit.grade),
      choice("bit.lot", "Lot of cutters", lists.lots, bit.lot),
      quantity("bit.cutter.leach_depth", "Leached from the face", "length", cutter.leach_depth),
      quantity("bit.cutter.leach_side_depth", "Leached round the edge", "length", cutter.leach_side_depth),
      quantity("bit.cutter.bevel_width", "Bevel width", "length", cutter.bevel_width),
      even ? quantity("bit.starting_wear", "Worn off every cutter at the start", "length", wears[0]) : {base: undefined},
    ], even || !wears.length ? "" : "The cutters start with wear of their own; see the text.");

    const layers = (resolved.column || {}).layers || [];
    (resolved.plan || []).forEach((interval, k) => {
      const from = number(interval.from), to = number(interval.to);
      const through = layers.filter((layer) => number(layer.top) < to - 1e-6 && number(layer.bottom) > from + 1e-6)
        .map((layer) => layer.rock.replace(/_/g, " "));
      const own = [];
      for (const [key, label] of [["weight_on_bit", "Weight"], ["pull_down", "Pull-down"], ["holdback", "Holdback"]])
        if (interval[key] !== undefined) own.push(quantity(`plan.${k}.${key}`, label, "weight", interval[key]));
      own.push(quantity(`plan.${k}.rotary_speed`, "Speed", "rotary_speed", interval.rotary_speed),
               quantity(`plan.${k}.flow`, "Flow", flowKind, interval.flow));
      if (gas) own.push(quantity(`plan.${k}.mist_water`, "Mist water", "flow", interval.mist_water));
      if (interval.feed_limit !== undefined) own.push(quantity(`plan.${k}.feed_limit`, "Feed limit", "progress", interval.feed_limit));
      groups.push({title: "Settings", from, to, note: through.join(", "), fields: own});
    });

    add("Ground", layers.flatMap((layer, k) => [
      choice(`column.layers.${k}.rock`, `Layer ${k + 1}`, lists.rocks.includes(layer.rock) ? lists.rocks : [layer.rock].concat(lists.rocks), layer.rock),
    ]).concat([quantity("column.water_level", "Standing water at", "depth", (resolved.column || {}).water_level)]),
        "Depths of layers are in the text.");

    const repeat = resolved.repeat || {}, rework = resolved.rework || {};
    add("Drilling to rework", [
      {path: "repeat.holes", label: "Holes at most", plain: "whole", base: number(repeat.holes)},
      choice("repeat.stop_at", "Stop at", ["rework_due", "beyond_repair", "last_hole"], repeat.stop_at),
      quantity("rework.worn_height", "Rework when a cutter is worn", "length", rework.worn_height),
      {path: "rework.outer_dull_grade", label: "or the outer dull grade is", plain: "number", base: rework.outer_dull_grade === undefined ? undefined : number(rework.outer_dull_grade)},
      quantity("repeat.trip_time", "Time for a trip", "hours", repeat.trip_time),
    ]);

    const costs = resolved.costs || {}, currency = costs.currency || "$";
    const money = (key, label) => ({path: "costs." + key, label, money: currency, base: costs[key] === undefined ? undefined : number(costs[key])});
    add("Costs", [
      money("bit", "Bit"), Object.assign(money("rig", "Rig by the hour"), {perHour: true}), money("rework", "A usual rework"),
      money("cutter", "A new cutter, brazed in"), money("pocket", "A pocket built up"), money("replacement", "A new bit past repair"),
    ]);
    return groups;
  }

  /// The field's base as its input shows it, in these units.
  function shown(field, units) {
    if (field.choices) return field.base;
    if (field.kind) return tidy(units.convert(field.kind, field.base));
    if (field.perHour) return tidy(field.base * 3600);
    return tidy(field.base);
  }

  // Four figures are what people set; whole numbers keep all of theirs.
  function tidy(value) {
    if (!Number.isFinite(value)) return "";
    return String(parseFloat(Math.abs(value) >= 1000 ? value.toFixed(0) : value.toPrecision(4)));
  }

  function unitOf(field, units) {
    if (field.kind) return units.unit(field.kind);
    if (field.money) return field.money + (field.perHour ? "/h" : "");
    return "";
  }

  /// What an input's text means as a value for --set: a bare number gets the unit that is shown beside it.
  function valueFor(field, text, units) {
    const said = text.trim();
    if (field.choices) return said;
    const bare = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(said);
    if (!bare || field.plain) return said;
    if (field.kind) return said + " " + written[field.kind][units.system === "si" ? 1 : 0];
    return said + " " + field.money + (field.perHour ? "/h" : "");
  }

  dullcast.whatIfFields = {fieldsOf, shown, unitOf, valueFor};
})();
