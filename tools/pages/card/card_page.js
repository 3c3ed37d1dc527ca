// The page of a run card.
// needs parts/card.js parts/shell.js
(function () {
  "use strict";
  const dullcast = window.dullcast;
  const view = dullcast.pageData("card-data");
  if (!view) return;
  const place = document.getElementById("card");
  const shell = dullcast.shell(document.getElementById("switches"), view.units, (units) => dullcast.card(place, view, { units }));
  dullcast.card(place, view, { units: shell.units() });
  document.documentElement.dataset.ready = "yes";
})();
