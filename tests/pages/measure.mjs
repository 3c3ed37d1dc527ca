// How long pages take to load and to answer, in a browser on this machine. Prints; asserts nothing.
import { statSync } from "node:fs";
import { join } from "node:path";
import { opened, pages, startBrowser, stopBrowser } from "./browser.mjs";

const median = (numbers) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)];
const shown = (number) => number.toFixed(0);

await startBrowser();
console.log("page             MB   loaded, ms (median of 5)");
for (const [name, until] of [
  ["report.html", () => document.querySelector("#tracks svg")],
  ["lesson.html", () => dullcast.lesson.current()],
  ["what_if.html", () => document.querySelector("#tracks svg, .tracks svg, svg")],
]) {
  const took = [];
  for (let k = 0; k < 5; k += 1) {
    const one = await opened(name);
    await one.page.waitForFunction(until, null, { timeout: 60000 });
    took.push(await one.page.evaluate(() => performance.now()));
    await one.close();
  }
  console.log(`${name.padEnd(14)} ${(statSync(join(pages, name)).size / 1e6).toFixed(2)}   ${shown(median(took))}`);
}

const lesson = await opened("lesson.html");
await lesson.page.waitForFunction(() => dullcast.lesson.current() && dullcast.lesson.state().probes);
await lesson.page.click("#choices label:nth-child(1) input");
await lesson.page.click("#commit");
await lesson.page.waitForFunction(() => !document.querySelector("#set-weight").disabled);
const took = [];
for (let k = 0; k < 15; k += 1) {
  took.push(await lesson.page.evaluate(async (value) => {
    const slider = document.querySelector("#set-weight");
    const began = performance.now();
    slider.value = value;
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    while (String(dullcast.lesson.current().settings.weight) !== value) await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    return performance.now() - began;
  }, String(5000 + 250 * k)));
}
console.log(`slider to repaint, lesson: median ${shown(median(took))} ms of 15, greatest ${shown(Math.max(...took))}`);
await lesson.close();
await stopBrowser();
