// The sheet to print: every scene's question with room for the prediction, the rules to remember, and the cautions.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  function element(tag, words, parent, kind) {
    const node = document.createElement(tag);
    if (words) node.textContent = words;
    if (kind) node.className = kind;
    if (parent) parent.appendChild(node);
    return node;
  }

  dullcast.lessonHandout = function (target, scenes, usual, say, marks, estimates, cautions, text) {
    target.textContent = "";
    element("h1", "Why heat kills cutters", target);
    element("p", "Name ____________________________   Date ______________   Predict first, then try, then write what you saw.",
            target, "name-line");
    scenes.forEach((scene, k) => {
      const part = element("section", "", target, "sheet");
      element("h2", k + 1 + ". " + scene.title, part);
      element("p", text(scene.lead, say, Object.assign({}, usual, scene.start)) + " " + text(scene.question, say), part);
      const choices = element("p", "", part, "boxes");
      scene.choices.forEach((choice) => element("span", "\u2610 " + text(choice.words, say), choices));
      element("p", "I saw: ", part, "seen");
    });
    // Apart from the questions, so that no prediction is copied from the rule below it.
    const rules = element("section", "", target, "sheet rules");
    element("h2", "Rules to remember", rules);
    const numbered = element("ol", "", rules);
    scenes.forEach((scene) => element("li", text(scene.rule, say, marks), numbered));
    const end = element("section", "", target, "sheet end");
    element("h2", "Cautions", end);
    const list = element("ul", "", end);
    cautions.forEach((words) => element("li", words, list));
    element("p", "Numbers of the lesson: " + estimates.slice(0, 2).join(" "), end);
  };
})();
