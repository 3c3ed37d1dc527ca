// The form of one set of changes: an input a field, what differs from the scenario's text and from the first set marked.
// needs parts/shell.js what_if/fields.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const make = (...given) => dullcast.make(...given);
  const {shown, unitOf, valueFor} = dullcast.whatIfFields;
  const spoken = (word) => word.replace(/_/g, " ");

  // page: {units(), changed(variant)}; changed is told when an input has been taken. Gives {show(groups, variant, first)}:
  // groups as fieldsOf made them, variant {sets}, first the one it is held against.
  dullcast.whatIfForm = function (container, page) {
    const opened = new Set(["Bit"]);  // parts that stand open, by their headings

    /// A value as it was written, as its input shows it: without the unit that stands beside the input.
    function inShown(field, value) {
      if (field.choices) return value;
      const bare = value.replace(/\s+\S+$/, "");
      return valueFor(field, bare, page.units()) === value ? bare : value;
    }

    function noteOf(field, variant, first) {
      const base = shown(field, page.units()), mine = variant.sets.get(field.path), theirs = first.sets.get(field.path);
      if (variant !== first && mine !== theirs) return "\u2260 A: " + (theirs === undefined ? base : inShown(field, theirs));
      return mine === undefined ? "" : "was " + base;
    }

    function inputFor(field, variant, first, k) {
      const id = "field-" + k, units = page.units();
      const set = variant.sets.get(field.path), base = shown(field, units);
      let input;
      if (field.choices) {
        input = make("select", {id}, field.choices.map((c) => make("option", {value: c}, spoken(c))));
        input.value = set === undefined ? base : set;
      } else {
        input = make("input", {id, type: "text", inputmode: "decimal", autocomplete: "off"});
        input.value = set === undefined ? base : inShown(field, set);
      }
      const note = make("span", {class: "note", id: id + "-note"}, noteOf(field, variant, first));
      input.setAttribute("aria-describedby", note.id);
      const unit = unitOf(field, units);
      const row = make("div", {class: "field" + (set !== undefined ? " changed" : "")},
        make("label", {for: id}, spoken(field.label), unit ? make("span", {class: "unit"}, ", " + unit) : null), input, note);
      const take = () => {
        const said = input.value.trim();
        if (said === "" || said === base) variant.sets.delete(field.path);
        else variant.sets.set(field.path, valueFor(field, said, units));
        note.textContent = noteOf(field, variant, first);
        row.classList.toggle("changed", variant.sets.has(field.path));
        page.changed(variant);
      };
      input.addEventListener("change", take);
      if (!field.choices) input.addEventListener("keydown", (event) => { if (event.key === "Enter") take(); });
      return row;
    }

    function part(box) {
      const words = box.querySelector("legend").textContent;
      const made = make("details", {class: "part"}, make("summary", {}, words), box);
      made.open = opened.has(words);
      made.addEventListener("toggle", () => (made.open ? opened.add(words) : opened.delete(words)));
      return made;
    }

    function show(groups, variant, first) {
      const units = page.units(), plan = [], others = [];
      let k = 0;
      groups.filter((group) => group.fields.length).forEach((group) => {
        const interval = group.from !== undefined;
        const heading = interval ? units.plain(units.convert("depth", group.from), 4) + "\u2013" + units.show("depth", group.to, 4)
                                 : group.title;
        const box = make("fieldset", {class: interval ? "group interval" : "group"},
          make("legend", {}, heading, interval && group.note ? make("span", {class: "unit"}, " " + group.note) : null),
          make("div", {class: "fields"}, group.fields.map((field) => inputFor(field, variant, first, k++))));
        if (group.note && !interval) box.append(make("p", {class: "quiet"}, group.note));
        (interval ? plan : others).push(box);
      });
      container.replaceChildren(make("h3", {}, "What the driller holds"), ...plan, ...others.map(part));
    }

    return {show};
  };
})();
