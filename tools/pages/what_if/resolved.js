// The scenario as the engine understood it ("resolved" of ask: "check"), read into plain objects. The text is the
// program's own and regular: two blanks a level, one key a line, lists with "- ", and braces or brackets on one line.
// This is no reader of YAML at large; what people write is read by the engine only.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  function value(text) {
    if (text.startsWith('"')) {
      try {
        return JSON.parse(text);
      } catch (wrong) {
        return text;
      }
    }
    return text;
  }

  /// The text's maps as objects and its lists as arrays; every value is a text, as {low: ...} too.
  function read(text) {
    const lines = text.split("\n").filter((line) => line.trim() && !line.trim().startsWith("#"));
    const indentOf = (line) => line.length - line.trimStart().length;
    let at = 0;
    function block(indent) {
      if (at >= lines.length || indentOf(lines[at]) < indent) return "";
      return lines[at].trimStart().startsWith("- ") ? list(indentOf(lines[at])) : map(indentOf(lines[at]));
    }
    function list(indent) {
      const all = [];
      while (at < lines.length && indentOf(lines[at]) === indent && lines[at].trimStart().startsWith("- ")) {
        const rest = lines[at].trimStart().slice(2);
        if (/^("[^"]*"|[A-Za-z_][\w]*): ?/.test(rest) && !rest.startsWith("{")) {
          lines[at] = " ".repeat(indent + 2) + rest;
          all.push(map(indent + 2));
        } else {
          all.push(value(rest));
          at += 1;
        }
      }
      return all;
    }
    function map(indent) {
      const all = {};
      while (at < lines.length && indentOf(lines[at]) === indent && !lines[at].trimStart().startsWith("- ")) {
        const found = /^("(?:[^"\\]|\\.)*"|[^:]+):\s*(.*)$/.exec(lines[at].trimStart());
        at += 1;
        if (!found) continue;
        const key = value(found[1]);
        all[key] = found[2] === "" ? block(indent + 1) : value(found[2]);
      }
      return all;
    }
    return map(0);
  }

  /// The entries of a library file (or of rocks:, grades: ... in a resolved text): its keys on the first level.
  function names(text) {
    return Array.from(text.matchAll(/^"?([A-Za-z_][\w]*)"?:/gm), (found) => found[1]);
  }

  dullcast.whatIfResolved = {read, names};
})();
