// Which tracks a run has.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // trackList(view, data, only): the tracks of a run in their order. view: what run_view gives; data: its runRows; only:
  // ids to keep, all without it. Each has {id, name, kind (dullcast.units), lines: [{x: one value a row, name, style (of
  // dullcast.colours), faint}]} and perhaps zero (its scale begins there), before (said before its unit), marks
  // (temperatures), calm (what is far above the rest sets no scale).
  dullcast.trackList = function (view, data, only) {
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
    return only ? all.filter((t) => only.includes(t.id)) : all;
  };
})();
