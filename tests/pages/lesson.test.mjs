// The lesson, in a browser, beside the program.
import test, { before, after } from "node:test";
import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { equalAsShown, fitsItsWidth, isAccessible, opened, pages, ranByTheProgram, root, sheets, startBrowser, stopBrowser } from "./browser.mjs";

before(startBrowser);
after(stopBrowser);

// What the engine finds in each scene. Rules to remember rest on it: where the engine comes to find something else, look at
// the scene's rule and text again (tools/pages/lesson/scenes.js), then change it here.
const borneOut = { heat: "speed", flow: "late", pump: "second", limits: "some", dull: "hotter", outer: "outer", gravel: "price", pull: "middle", yours: "weight" };

const ready = (page) => page.waitForFunction(() => dullcast.lesson.current() && dullcast.lesson.state().probes);
async function predict(page, n = 1) {
  await page.click(`#choices label:nth-child(${n}) input`);
  await page.click("#commit");
}
async function slide(page, id, value) {
  await page.$eval("#set-" + id, (input, v) => {
    input.value = v;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.dispatchEvent(new Event("change", { bubbles: true }));
  }, String(value));
  await page.waitForFunction(([key, v]) => String(dullcast.lesson.current().settings[key]) === v, [id, String(value)]);
}
const commandSets = (page) => page.evaluate(() => Array.from(document.getElementById("command").textContent.matchAll(/--set "([^"]*)"/g), (m) => m[1]));
const scenario = readFileSync(join(root, "tools/pages/lesson/lesson.yaml"), "utf8");

test("is under 3 MB", () => {
  assert.ok(statSync(join(pages, "lesson.html")).size < 3e6);
});

test("sliders open once a prediction is made, and move the numbers", async () => {
  const one = await opened("lesson.html");
  await ready(one.page);
  assert.ok(await one.page.isDisabled("#set-speed"));
  assert.ok(await one.page.isDisabled("#commit"));
  assert.ok(await one.page.isHidden("#happened"));
  // Nor does the curve give the answer away, though its runs are there.
  assert.equal(await one.page.locator("#chart .dot").count(), 1);
  await predict(one.page);
  assert.ok(await one.page.isEnabled("#set-speed"));
  const before = await one.page.textContent("#tiles");
  await slide(one.page, "speed", 120);
  assert.notEqual(await one.page.textContent("#tiles"), before);
  await one.page.click("#commit");
  assert.match(await one.page.textContent("#verdict"), /The engine finds: Twice the speed/);
  assert.match(await one.page.textContent("#tried"), /rotary speed from 60 rpm to 120 rpm/);
  // The square marks where the scene began, on whichever axis the last slider brought.
  const apart = () => one.page.evaluate(() => {
    const middle = (name) => { const box = document.querySelector(name).getBoundingClientRect(); return box.left + box.width / 2; };
    return middle("#chart .here") - middle("#chart .began");
  });
  assert.ok((await apart()) > 20);
  await slide(one.page, "weight", 6000);
  assert.ok(Math.abs(await apart()) < 1);
  await one.close();
});

for (const scene of Object.keys(borneOut)) {
  test(`scene ${scene}: the engine bears out the rule, and the numbers are the program's`, async () => {
    const one = await opened("lesson.html#" + scene);
    await ready(one.page);
    assert.equal(await one.page.evaluate(() => dullcast.lesson.right()), borneOut[scene]);
    await predict(one.page, 2);
    await one.page.click("#commit");
    const rows = ranByTheProgram(scenario, await commandSets(one.page));
    const passage = rows[rows.length - 1];
    const shown = await one.page.evaluate(() => {
      const { view, found } = dullcast.lesson.current();
      return { passage: view.passages[view.passages.length - 1], found: { rate: found.rate, chips: found.chips } };
    });
    equalAsShown(shown.passage.hottest_flat, +passage.hottest_flat_K, "hottest flat");
    equalAsShown(shown.passage.wear_gain, +passage.greatest_wear_gain_m, "wear");
    equalAsShown(shown.found.rate, +passage.rate_of_penetration_m_per_s, "progress");
    equalAsShown(shown.found.chips, +passage.expected_chips, "chips");
    assert.equal(await one.page.locator("#told li").count() > 0, true);
    // The text states figures of this run, none that is written down.
    assert.doesNotMatch(await one.page.textContent("#happened"), /NaN|undefined|null/);
    await one.close();
  });
}

test("the stopped pump crosses the lines in the order and at the times that the engine gives", async () => {
  const one = await opened("lesson.html#pump");
  await ready(one.page);
  await predict(one.page);
  await one.page.click("#commit");
  const told = await one.page.evaluate(() => {
    // From the engine's own rows, apart from what the page makes of them.
    const { view, found } = dullcast.lesson.current();
    const stop = view.events.find((e) => e.kind === "upset_begins").time;
    const hot = view.rows.time.map((_, k) => Math.max(...view.rows.cutters.flat_temperature.map((c) => c[k])));
    const over = (T) => view.rows.time.findIndex((t, k) => t > stop && hot[k] >= T);
    const bounds = view.marks.map((m) => {
      const k = over(m.temperature);
      return [view.rows.time[k - 1] - stop, view.rows.time[k] - stop];
    });
    const ruined = view.events.find((e) => e.kind === "table_ruined").time - stop;
    return { bounds, crossed: found.crossed, ruined, shownRuined: found.ruined, crossings: document.querySelectorAll(".crossing").length };
  });
  const { faster, ruin } = told.crossed;
  // Rows are near enough to tell a line's moment to a tenth of a second, or a twentieth of the time.
  for (const [from, to] of told.bounds) assert.ok(to - from <= Math.max(0.1, 0.05 * from), `rows at ${from} and ${to} s`);
  assert.ok(faster >= told.bounds[0][0] && faster <= told.bounds[0][1], `${faster} within ${told.bounds[0]}`);
  assert.ok(ruin >= told.bounds[1][0] && ruin <= told.bounds[1][1], `${ruin} within ${told.bounds[1]}`);
  assert.ok(faster < ruin && ruin < told.ruined);
  assert.equal(told.shownRuined, told.ruined);
  assert.equal(told.crossings, 2);
  // Played, each crossing shows when its moment has come and not before.
  const seen = (seconds) => one.page.evaluate((at) => {
    const pen = document.getElementById("moment");
    pen.value = at;
    pen.dispatchEvent(new Event("input", { bubbles: true }));
    return Array.from(document.querySelectorAll(".crossing")).filter((c) => c.style.display !== "none").length;
  }, seconds);
  assert.equal(await seen(0), 0);
  assert.equal(await seen(Math.ceil(faster * 10) / 10 + 0.1), 1);
  assert.equal(await seen(Math.floor(ruin * 10) / 10 - 0.1), 1);
  assert.equal(await seen(Math.ceil(ruin * 10) / 10 + 0.1), 2);
  await one.page.click("#play");
  await one.page.waitForFunction(() => parseFloat(document.getElementById("clock").textContent) > 20);
  await one.page.click("#play");
  const paused = await one.page.textContent("#clock");
  await one.page.waitForTimeout(200);
  assert.equal(await one.page.textContent("#clock"), paused);
  await one.close();
});

test("whoever wants no motion gets moments instead of a film", async () => {
  const one = await opened("lesson.html#pump", { reducedMotion: "reduce" });
  await ready(one.page);
  await predict(one.page);
  await one.page.click("#commit");
  assert.equal(await one.page.textContent("#play"), "Next moment");
  await one.page.$eval("#moment", (m) => { m.value = 0; m.dispatchEvent(new Event("input", { bubbles: true })); });
  await one.page.click("#play");
  const at = parseFloat(await one.page.textContent("#clock"));
  const faster = await one.page.evaluate(() => dullcast.lesson.current().found.crossed.faster);
  assert.ok(Math.abs(at - faster) <= 0.05, `${at} s shown, the line is crossed at ${faster} s`);
  await one.close();
});

test("is driven by the keyboard, and by a presenter's remote", async () => {
  const one = await opened("lesson.html");
  await ready(one.page);
  const title = () => one.page.textContent("#count");
  await one.page.keyboard.press("ArrowRight");
  assert.match(await title(), /Scene 2/);
  await one.page.keyboard.press("ArrowLeft");
  assert.match(await title(), /Scene 1/);
  await one.page.keyboard.press("p");
  assert.ok(await one.page.evaluate(() => document.body.classList.contains("presenting")));
  await ready(one.page);
  await one.page.keyboard.press("PageDown");
  assert.ok(await one.page.isEnabled("#set-speed"));
  await one.page.keyboard.press("Space");
  assert.ok(await one.page.isVisible("#happened"));
  await one.page.keyboard.press("PageDown");
  assert.match(await title(), /Scene 2/);
  await one.page.keyboard.press("PageUp");
  assert.match(await title(), /Scene 1/);
  await one.page.keyboard.press("Escape");
  assert.ok(!(await one.page.evaluate(() => document.body.classList.contains("presenting"))));
  // Arrows on a slider move the slider, not the scene.
  await one.page.focus("#set-speed");
  await one.page.keyboard.press("ArrowRight");
  assert.match(await title(), /Scene 1/);
  await one.page.waitForFunction(() => dullcast.lesson.current().settings.speed === 65);
  await one.close();
});

test("units are switched everywhere", async () => {
  const one = await opened("lesson.html");
  await ready(one.page);
  assert.match(await one.page.textContent("#tiles"), /°F/);
  await one.page.click("#units");
  assert.match(await one.page.textContent("#tiles"), /°C/);
  assert.match(await one.page.textContent("#controls"), /kN/);
  // All but the command line, which is always in the units that it was written in.
  const words = await one.page.evaluate(() => {
    const copy = document.querySelector("main").cloneNode(true);
    copy.querySelectorAll("#command, svg title").forEach((node) => node.remove());
    return copy.textContent;
  });
  assert.doesNotMatch(words, /°F|lbf|ft\/h|feet/);
  await one.close();
});

test("a saved scene drilled by the program gives the numbers of the page", async () => {
  const one = await opened("lesson.html#limits");
  await ready(one.page);
  await predict(one.page);
  await slide(one.page, "speed", 110);
  await one.page.click("#commit");
  await one.page.click("details:has(#save) summary");
  const [download] = await Promise.all([one.page.waitForEvent("download"), one.page.click("#save")]);
  const rows = ranByTheProgram(readFileSync(await download.path(), "utf8"));
  const shown = await one.page.evaluate(() => dullcast.lesson.current().found.hot);
  equalAsShown(shown, +rows[rows.length - 1].hottest_flat_K, "hottest flat");
  await one.close();
});

for (const [what, settings, hash] of [
  ["light", {}, "heat"], ["dark", { colorScheme: "dark" }, "pump"], ["a phone", { viewport: { width: 390, height: 844 } }, "limits"],
]) {
  test(`axe-core finds no serious fault: ${what}`, async () => {
    const one = await opened("lesson.html#" + hash, settings);
    await ready(one.page);
    await isAccessible(one.page, "before the prediction");
    await predict(one.page);
    await one.page.click("#commit");
    await one.page.waitForTimeout(300);
    await isAccessible(one.page, "after it");
    await fitsItsWidth(one.page, what);
    await one.page.keyboard.press("Escape");
    await one.page.click("#presenter");
    await isAccessible(one.page, "presenting");
    await one.close();
  });
}

test("the handout is two sheets, with every question, every rule and the cautions", async () => {
  const one = await opened("lesson.html");
  await ready(one.page);
  assert.equal(await sheets(one.page), 2);
  assert.equal(await sheets(one.page, "A4"), 2);
  const text = await one.page.$eval("#handout", (node) => node.textContent);
  for (const words of ["Stop the pump", "Rules to remember", "Cautions", "licensed driller"]) assert.ok(text.includes(words), words);
  await one.close();
});
