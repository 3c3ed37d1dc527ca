// Figures saved as SVG or PNG, with the colours that they have on the page.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  const drawn = ["fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-opacity", "opacity",
    "font-family", "font-size", "font-weight", "font-variant-numeric", "text-anchor", "dominant-baseline", "visibility",
    "paint-order", "stroke-linejoin", "display"];

  // A copy that looks alike without the page's style sheet, with a note at its foot.
  function alone(svg, note) {
    const copy = svg.cloneNode(true);
    const from = svg.querySelectorAll("*"), to = copy.querySelectorAll("*");
    for (let k = 0; k < from.length; ++k) {
      const style = getComputedStyle(from[k]);
      for (const name of drawn) to[k].style.setProperty(name, style.getPropertyValue(name));
      to[k].removeAttribute("tabindex");
    }
    const box = svg.getBoundingClientRect();
    const view = svg.viewBox.baseVal;
    const width = view && view.width ? view.width : box.width, drawnHeight = view && view.height ? view.height : box.height;
    const height = drawnHeight + (note ? 22 : 0);
    copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
    copy.setAttribute("width", width);
    copy.setAttribute("height", height);
    copy.setAttribute("viewBox", "0 0 " + width + " " + height);
    for (const gone of copy.querySelectorAll(".only-screen")) gone.remove();
    const paper = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    paper.setAttribute("width", "100%");
    paper.setAttribute("height", "100%");
    paper.setAttribute("fill", getComputedStyle(document.documentElement).getPropertyValue("--paper").trim() || "#ffffff");
    copy.insertBefore(paper, copy.firstChild);
    if (note) {
      const page = getComputedStyle(document.body);
      const text = document.createElementNS("http://www.w3.org/2000/svg", "text");
      text.textContent = note;
      text.setAttribute("x", 4);
      text.setAttribute("y", drawnHeight + 14);
      text.setAttribute("font-size", 10);
      text.setAttribute("font-family", page.fontFamily);
      text.setAttribute("fill", page.color);
      text.setAttribute("fill-opacity", 0.7);
      copy.append(text);
    }
    return { text: new XMLSerializer().serializeToString(copy), width, height };
  }

  function hand(blob, name) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }

  // svgText(svg, note): the figure as the text of an SVG file, with a note at its foot where there is one.
  // saveSvg(svg, name, note), savePng(svg, name, note): hand it to the reader as a file; savePng gives a promise.
  dullcast.svgText = (svg, note) => alone(svg, note).text;
  dullcast.saveSvg = function (svg, name, note) {
    hand(new Blob([alone(svg, note).text], { type: "image/svg+xml" }), name + ".svg");
  };
  dullcast.pngOf = function (svg, note) {
    const { text, width, height } = alone(svg, note);
    return new Promise((done, failed) => {
      const image = new Image();
      const place = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
      image.onload = () => {
        const finer = 2;  // dots a unit, for prints
        const canvas = document.createElement("canvas");
        canvas.width = Math.ceil(width * finer);
        canvas.height = Math.ceil(height * finer);
        const brush = canvas.getContext("2d");
        brush.scale(finer, finer);
        brush.drawImage(image, 0, 0, width, height);
        URL.revokeObjectURL(place);
        canvas.toBlob((blob) => (blob ? done(blob) : failed(new Error("the picture could not be made"))), "image/png");
      };
      image.onerror = () => failed(new Error("the picture could not be drawn"));
      image.src = place;
    });
  };
  dullcast.savePng = (svg, name, note) => dullcast.pngOf(svg, note).then((blob) => hand(blob, name + ".png"));
})();
