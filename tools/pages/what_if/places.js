// Mistakes and warnings beside the scenario's text, each with its line and column and the way there.
// needs parts/shell.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const make = (...given) => dullcast.make(...given);
  const byId = (id) => document.getElementById(id);

  // fileName(): the name that the engine tells places of the text by.
  dullcast.whatIfPlaces = function (fileName) {
    function goTo(line, column) {
      const area = byId("text");
      byId("text-part").open = true;
      const lines = area.value.split("\n");
      let at = 0;
      for (let k = 0; k < Math.min(line - 1, lines.length); ++k) at += lines[k].length + 1;
      at += Math.max(0, column - 1);
      area.focus();
      area.setSelectionRange(at, at + Math.max(1, (lines[line - 1] || "").length - column + 1));
      area.scrollTop = Math.max(0, (line - 4) * parseFloat(getComputedStyle(area).lineHeight));
    }

    function told(line, column, words) {
      const item = make("li", {});
      if (line > 0) {
        const button = make("button", {type: "button", class: "small"}, `line ${line}, column ${column}`);
        button.addEventListener("click", () => goTo(line, column));
        item.append(button, " ");
      }
      item.append(words);
      return item;
    }

    function showProblems(problems, of) {
      byId("problems").replaceChildren();
      if (!problems.length) return;
      byId("problems").append(make("p", {}, make("strong", {}, of ? `${of} cannot be run:` : "This text cannot be run:")),
        make("ul", {}, problems.map((problem) => {
          const found = /^(.*?):(\d+):(\d+): ([\s\S]*)$/.exec(problem);
          return found && found[1] === fileName() ? told(+found[2], +found[3], found[4]) : told(0, 0, problem);
        })));
    }

    function showWarnings(warnings) {
      byId("warnings-part").hidden = warnings.length === 0;
      byId("warnings-title").textContent = warnings.length === 1 ? "One warning" : warnings.length + " warnings";
      byId("warnings").replaceChildren(...warnings.map((w) => told(w.line, w.column, (w.key ? w.key + ": " : "") + w.text)));
    }

    function showCaret() {
      const before = byId("text").value.slice(0, byId("text").selectionStart).split("\n");
      byId("place").textContent = `line ${before.length}, column ${before[before.length - 1].length + 1}`;
    }
    ["keyup", "click", "focus"].forEach((kind) => byId("text").addEventListener(kind, showCaret));

    return {showProblems, showWarnings};
  };
})();
