// Reports and run cards, in a browser, beside the program.
import test, { before, after } from "node:test";
import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { fitsItsWidth, isAccessible, opened, pages, program, sheets, startBrowser, stopBrowser } from "./browser.mjs";

before(startBrowser);
after(stopBrowser);

// The forecast of the stored run that the report is of, in the program's own words.
function brief() {
  const told = spawnSync(program, ["show", join(pages, "field.h5"), "--brief"], { encoding: "utf8" });
  assert.equal(told.status, 0, told.stderr);
  return told.stdout;
}

test("the first screen says what the program says", async () => {
  const one = await opened("report.html");
  const headline = await one.page.textContent("#headline");
  const hole = headline.match(/^hole (\d+) of (\d+)$/);
  assert.ok(hole, headline);
  assert.match(brief(), new RegExp(`hole ${hole[1]}\\b`));
  const summary = await one.page.textContent("#summary");
  assert.match(summary, /Low life: hole \d+/);
  assert.match(summary, /uncalibrated/);
  const all = await one.page.textContent("body");
  for (const word of ["estimates", "rotating iron", "under pressure", "licensed"]) assert.ok(all.toLowerCase().includes(word), word);
  await one.close();
});

test("the cursor goes with the keys and takes the bit along", async () => {
  const one = await opened("report.html");
  const where = () => one.page.textContent("#bit-where");
  const first = await where();
  await one.page.focus("#tracks .overlay");
  for (let k = 0; k < 5; k += 1) await one.page.keyboard.press("ArrowUp");
  await one.page.waitForFunction((was) => document.getElementById("bit-where").textContent !== was, first);
  const view = await one.page.evaluate(() => JSON.parse(document.getElementById("runs-data").textContent)[0]);
  const colours = () => one.page.$$eval("#bit svg [fill]", (all) => all.map((e) => e.getAttribute("fill")).join(" "));
  const before = await colours();
  const last = view.holes[view.holes.length - 1].number;
  await one.page.selectOption("#hole", String(last));
  await one.page.waitForFunction((hole) => document.getElementById("bit-where").textContent.startsWith("Hole " + hole + " "), last);
  assert.notEqual(await colours(), before, "cutters of a worn bit are drawn otherwise");
  await one.close();
});

test("zoom shows less of the hole, and the whole again", async () => {
  const one = await opened("report.html");
  const ticks = () => one.page.$$eval("#tracks svg text", (all) => all.map((e) => e.textContent).join("|"));
  const whole = await ticks();
  await one.page.click("button[aria-label='Zoom in']");
  await one.page.waitForFunction((was) => Array.from(document.querySelectorAll("#tracks svg text"), (e) => e.textContent).join("|") !== was, whole);
  await one.page.click("text=Whole hole");
  await one.page.waitForFunction((was) => Array.from(document.querySelectorAll("#tracks svg text"), (e) => e.textContent).join("|") === was, whole);
  await one.close();
});

test("figures are saved as SVG and PNG", async () => {
  const one = await opened("report.html");
  for (const [kind, starts] of [["SVG", "<"], ["PNG", "\x89PNG"]]) {
    const [download] = await Promise.all([one.page.waitForEvent("download"), one.page.click(`#over-depth button:has-text("${kind}")`)]);
    const bytes = readFileSync(await download.path());
    assert.ok(bytes.length > 2000 && bytes.toString("latin1").startsWith(starts), kind);
  }
  await one.close();
});

test("several runs stand side by side", async () => {
  const one = await opened("report_of_two.html");
  const heads = await one.page.$$eval("#report thead th", (cells) => cells.map((cell) => cell.textContent));
  for (const name of ["cutter_kept_cool.yaml", "cutter_burnt.yaml"]) assert.ok(heads.some((head) => head.includes(name)), heads.join("|"));
  await one.page.selectOption("#run", "1");
  await one.page.waitForFunction(() => document.querySelectorAll("#tracks svg").length === 1);
  await one.close();
});

test("a sweep's page has its curves", async () => {
  const one = await opened("sweep.html");
  assert.ok((await one.page.$$("#report svg")).length >= 2);
  await one.close();
});

test("the run card prints on one page", async () => {
  const one = await opened("card.html");
  for (const format of ["Letter", "A4"]) assert.equal(await sheets(one.page, format), 1, format);
  const card = await one.page.textContent("body");
  for (const word of ["lbf", "rpm", "gal/min"]) assert.ok(card.includes(word), word);
  assert.match(card, /pull/i);
  await one.close();
});

for (const [page, settings, what] of [
  ["report.html", {}, "report, light"],
  ["report.html", { colorScheme: "dark" }, "report, dark"],
  ["report_of_two.html", {}, "two runs"],
  ["sweep.html", {}, "sweep"],
  ["card.html", {}, "card"],
  ["report.html", { viewport: { width: 390, height: 844 } }, "report on a phone"],
]) {
  test(`axe-core finds no serious fault, and it fits: ${what}`, async () => {
    const one = await opened(page, settings);
    await isAccessible(one.page, what);
    await fitsItsWidth(one.page, what);
    await one.close();
  });
}

test("pages stay under 3 MB", () => {
  for (const page of ["report.html", "report_of_two.html", "card.html", "sweep.html"]) assert.ok(statSync(join(pages, page)).size < 3e6, page);
});
