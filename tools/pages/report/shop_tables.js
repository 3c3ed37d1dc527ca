// Tables of a shop's outlook, as a part of the report.
// needs third_party/d3/d3.min.js parts/shell.js parts/units.js
(function () {
  "use strict";
  const dullcast = window.dullcast, make = dullcast.make;

  const known = (v) => v !== null && v !== undefined;
  const dash = "\u2013";
  const percent = (share) => (!known(share) ? dash : share > 0 && share < 0.005 ? "under 1\u00a0%" : Math.round(100 * share) + "\u00a0%");
  const hours = (units, seconds) => (known(seconds) ? units.plain(seconds / 3600, 2) + "\u00a0h" : dash);
  // By the clock: hours up to two days, then days.
  const clock = (units, seconds) => (!known(seconds) ? dash : seconds < 2 * 86400 ? hours(units, seconds) : units.plain(seconds / 86400, 2) + "\u00a0days");
  // To three figures, thousands apart.
  function money(value) {
    if (!known(value)) return dash;
    const size = Math.abs(value), step = size >= 1000 ? Math.pow(10, Math.floor(Math.log10(size)) - 2) : 1;
    const text = String(Math.round(size / step) * step).replace(/\B(?=(\d{3})+$)/g, "\u202f");
    return (value < 0 && text !== "0" ? "\u2212" : "") + text;
  }
  // A difference with two standard errors, both to the second figure of the latter.
  function difference(value, error, tells) {
    if (!known(value) || !known(error)) return dash;
    const two = 2 * error, step = two > 0 ? Math.pow(10, Math.floor(Math.log10(two)) - 1) : 0.001;
    const places = Math.max(0, Math.min(6, -Math.round(Math.log10(step))));
    const round = (v) => (Math.round(Math.abs(v) / step) * step).toFixed(places).replace(/\B(?=(\d{3})+$)/g, "\u202f");
    const text = (value < 0 && Number(value.toPrecision(12)) !== 0 ? "\u2212" : "+") + round(value) + " \u00b1 " + round(two);
    return make("span", { class: "whole " + (tells ? (value < 0 ? "saves" : "costs") : "open") }, text);
  }
  const whole = (text) => make("span", { class: "whole" }, text);
  const date = (when) => (when ? whole(when.text) : dash);
  const days = (ends) => (ends.low && ends.high ? make("span", {}, whole(ends.low.text), " to ", whole(ends.high.text)) : dash);
  const words = { percent, hours, clock, money, difference };

  const lead = (text) => make("p", { class: "lead" }, text);

  function holesAtRisk(shop, { live, section, table }) {
    const all = shop.holes.filter((h) => h.late_probability >= 0.05).sort((a, b) => b.late_probability - a.late_probability), most = 20;
    return live(section("late-holes", "Holes at risk of beginning late"), (box, units) => {
      box.append(make("h2", { id: "late-holes-title" }, "Holes at risk of beginning late"));
      if (!all.length) return box.append(lead("No hole is late for want of a bit in one future out of twenty or more."));
      box.append(lead("For want of a bit, by more than a quarter of an hour. The rig's own hours, over all futures."));
      box.append(table(["Hole", "Rig", "Booked", "Chance", "Stands, mean", "One time in ten more than", "Likeliest bit"], all.slice(0, most).map((h) => [whole(h.name), whole(h.rig), h.booked ? whole(h.booked.minute) : dash, percent(h.late_probability), hours(units, h.late.mean), hours(units, h.late.high), h.likeliest ? h.likeliest.bit + " (" + percent(h.likeliest.share) + ")" : dash])));
      if (all.length > most) box.append(lead("And " + (all.length - most) + " more."));
    });
  }

  function bits(shop, { live, section, table }) {
    const classes = (bit) => bit.by_class.map((share, c) => [share, shop.classes[c]]).filter(([share]) => share >= 0.05).sort((a, b) => b[0] - a[0]).map(([share, name]) => name + " " + percent(share)).join(", ");
    return live(section("bits", "When each bit is due"), (box, units) => {
      box.append(make("h2", { id: "bits-title" }, "When each bit is due"), lead("Inspect the bit: the date is an estimate. Eight futures of ten, of those in which it falls due or fails within the plan, lie in the span."));
      box.append(table(["Bit", "Due", "Eight of ten", "Chance in the plan", "Most often", "The shop then", "Drills", "Known by"], shop.bits.map((b) => [
        make("span", {}, whole(b.name), make("span", { class: "why" }, b.design)), date(b.due.middle), days(b.due), percent(b.due_probability),
        (b.rule || dash) + (b.after_hole ? ", in hole " + b.after_hole : ""), classes(b) || dash, known(b.metres.middle) ? units.show("depth", b.metres.middle, 3) : dash, b.told_by])));
    });
  }

  function changes(shop, { live, section, table }) {
    if (!shop.changes.length) return null;
    return live(section("changes", "What one more would change"), (box, units) => {
      box.append(make("h2", { id: "changes-title" }, "What one more would change"), lead("Each tried alone in the same futures, the best first, without what it costs itself. Less than nothing is saved; \u00b1 is two standard errors, and what is grey these futures cannot tell from nothing."));
      box.append(table(["Change", "Late holes", "Rigs stand, h", "Money, " + shop.currency, "Turnaround with it"], shop.changes.map((c) => [
        dullcast.capitalOf(c.what), difference(c.more.late_holes, c.more.late_holes_error, c.more.late_holes_tells),
        known(c.more.late_time) && known(c.more.late_time_error) ? difference(c.more.late_time / 3600, c.more.late_time_error / 3600, c.more.late_time_tells) : dash,
        difference(c.more.total, c.more.total_error, c.more.total_tells), clock(units, c.turnaround.middle) + " (one in ten over " + clock(units, c.turnaround.high) + ")"])));
    });
  }

  function pulls(shop, { live, section, table }) {
    return live(section("early", "Bits to call in early"), (box) => {
      box.append(make("h2", { id: "early-title" }, "Bits to call in early"));
      if (!shop.early_pulls.length) return box.append(lead(shop.pulls_tried > 0 ? "None of the " + shop.pulls_tried + " that were tried helps." : "None was looked for."));
      box.append(lead("Before they are due, so that the bench has them in a quiet week; each on top of those above it, tried in futures that had no part in choosing it. " + shop.pulls_tried + " were looked at."));
      box.append(table(["Bit", "After hole", "About", "Futures in which there is one", "What it does", "Money, " + shop.currency], shop.early_pulls.map((p) => [whole(p.bit), p.after_hole, date(p.at), percent(p.in_use), dullcast.capitalOf(p.words) + ".", difference(p.more.total, p.more.total_error, p.more.total_tells)])));
    });
  }

  function moneyTable(shop, { live, section, table }) {
    return live(section("money", "Money"), (box, units) => {
      const m = shop.money, rows = [["Repairs", m.repairs], ["New bits for scrapped ones", m.new_bits], ["Rigs that stand for want of a bit", m.rigs_waiting], ["What the bits wore", m.worn], ["In all", m.total]];
      box.append(make("h2", { id: "money-title" }, "Money"));
      const share = known(m.repair_mean) && known(m.new_bit) && m.new_bit > 0 ? ": a repair is " + percent(m.repair_mean / m.new_bit) + " of a new bit" : "";
      if (known(m.repair_mean)) box.append(lead(units.plain(m.repairs_done, 2) + " repairs on average, of " + money(m.repair_mean) + " " + shop.currency + " each" + (known(m.new_bit) ? "; a new bit in their place costs " + money(m.new_bit) + " " + shop.currency : "") + share + "."));
      box.append(table(["", "Mean, " + shop.currency, "One time in ten less than", "One time in ten more than"], rows.map(([name, v]) => [name, money(v.mean), money(v.low), money(v.high)]), { class: "figures-table" }));
    });
  }

  // Everything that the charts show, week by week, for who cannot see them.
  function weeksTable(shop, { live, table }) {
    const details = make("details", { class: "all-weeks only-screen" });
    const opened = () => live(details, (box, units) => {
      const cell = (v, digits = 2) => units.plain(known(v) ? v : NaN, digits);
      const span = (s, w, unit = 1) => cell(s.middle[w] / unit) + " (" + cell(s.low[w] / unit) + dash + cell(s.high[w] / unit) + ")";
      box.append(make("summary", {}, "All weeks as a table"), lead("Middle, and in brackets eight futures of ten."));
      box.append(table(["Week of", "Bits in"].concat(shop.stations.map((s) => s.name + ", h of open"), shop.cutters.map((c) => c.name)), shop.weeks.begin.map((begin, w) => [begin ? begin.text : String(w + 1), span(shop.weeks.arrivals, w)].concat(
        shop.stations.map((s) => span(s.work, w, 3600) + " of " + cell(s.open[w] / 3600)), shop.cutters.map((c) => span(c.weekly, w) + (c.stock_out_by_week[w] ? ", out " + percent(c.stock_out_by_week[w]) : ""))))));
    });
    opened();
    return details;
  }

  dullcast.shopTables = { words, holesAtRisk, bits, changes, pulls, money: moneyTable, weeks: weeksTable };
})();
