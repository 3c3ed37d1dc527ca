// The what-if page, in a browser, beside the program. The page tried is that of scenarios/one_shallow_well.yaml.
import test, { before, after } from "node:test";
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { equalAsShown, fitsItsWidth, isAccessible, opened, pages, program, ranByTheProgram, root, sheets, startBrowser, stopBrowser } from "./browser.mjs";

before(startBrowser);
after(stopBrowser);

const name = "one_shallow_well.yaml";
const scenario = readFileSync(join(root, "scenarios", name), "utf8");
const drilled = (page, count = 1) =>
  page.waitForFunction((n) => dullcast.whatIf.variants().length === n && dullcast.whatIf.variants().every((v) => v.view && v.words === ""), count);
const passages = (page, k = 0) => page.evaluate((n) => dullcast.whatIf.variants()[n].view.passages, k);

// Sets the first field of that label and waits for the run.
async function set(page, label, value) {
  const input = page.locator(`.field`, { has: page.locator("label", { hasText: label }) }).first().locator("input, select");
  if ((await input.evaluate((node) => node.tagName)) === "SELECT") await input.selectOption(value);
  else {
    await input.fill(value);
    await input.press("Tab");
  }
}
const changesSaid = (page, words) => page.waitForFunction((w) => document.getElementById("changes").textContent.includes(w), words);
const settled = (page) => page.waitForFunction(() => document.getElementById("status").textContent.startsWith("Drilled"));

function equalPassages(shown, rows) {
  assert.equal(shown.length, rows.length);
  rows.forEach((row, k) => {
    equalAsShown(shown[k].rate_of_penetration, +row.rate_of_penetration_m_per_s, `layer ${k + 1}: progress`);
    equalAsShown(shown[k].hottest_flat, +row.hottest_flat_K, `layer ${k + 1}: hottest flat`);
    equalAsShown(shown[k].wear_gain, +row.greatest_wear_gain_m, `layer ${k + 1}: wear`);
  });
}

test("is under 3 MB, and drills the scenario as the program does", async () => {
  assert.ok(statSync(join(pages, "what_if.html")).size < 3e6);
  const one = await opened("what_if.html");
  await drilled(one.page);
  equalPassages(await passages(one.page), ranByTheProgram(scenario));
  assert.match(await one.page.textContent("#headline"), /^Rework is not due in 1 hole/);
  await one.close();
});

test("a field changes the run as --set does, and settings stand side by side with their differences marked", async () => {
  const one = await opened("what_if.html");
  await drilled(one.page);
  await one.page.click("#add");
  await drilled(one.page, 2);
  assert.equal(await one.page.locator("td.differs").count(), 0);
  await set(one.page, "Speed", "120");
  await changesSaid(one.page, "plan.0.rotary_speed=120 rpm");
  await set(one.page, "Cutter grade", "premium");
  await changesSaid(one.page, "bit.grade=premium");
  await settled(one.page);
  await one.page.waitForFunction(() => document.querySelectorAll("td.differs").length > 2);
  equalPassages(await passages(one.page, 0), ranByTheProgram(scenario));
  equalPassages(await passages(one.page, 1), ranByTheProgram(scenario, ["plan.0.rotary_speed=120 rpm", "bit.grade=premium"]));
  assert.match(await one.page.textContent(".comparison"), /[▲▼] [\d.]+\s%/);
  // A keeps its own; taking B away leaves it.
  await one.page.click("#remove");
  assert.equal(await one.page.locator(".comparison thead th").count(), 2);
  await one.close();
});

test("a mistake is told in the program's words, with its place, and the way there", async () => {
  const one = await opened("what_if.html");
  await drilled(one.page);
  await one.page.click("#text-part > summary");
  const wrong = scenario.replace("6000 lbf", "6000 widgets");
  assert.notEqual(wrong, scenario);
  await one.page.fill("#text", wrong);
  await one.page.waitForFunction(() => document.getElementById("problems").textContent.includes("widgets"));
  const folder = mkdtempSync(join(tmpdir(), "pages-"));
  writeFileSync(join(folder, name), wrong);
  const checked = spawnSync(program, ["check", name, "--library", join(root, "scenarios/library")], { cwd: folder, encoding: "utf8" });
  rmSync(folder, { recursive: true });
  const [, line, column, words] = /one_shallow_well\.yaml:(\d+):(\d+): (.*)/.exec(checked.stdout + checked.stderr);
  const shown = await one.page.textContent("#problems");
  assert.ok(shown.includes(`line ${line}, column ${column}`), shown);
  assert.ok(shown.includes(words.trim()), `${words} in ${shown}`);
  await one.page.click("#problems button");
  const at = await one.page.$eval("#text", (area) => area.value.slice(0, area.selectionStart).split("\n").length);
  assert.equal(at, +line);
  // Mended, it runs again.
  await one.page.fill("#text", scenario.replace("6000 lbf", "7000 lbf"));
  // 7000 lbf is 31138 N.
  await one.page.waitForFunction(() => Math.abs(dullcast.whatIf.variants()[0].view.intervals[0].weight - 31137.6) < 0.1);
  assert.equal(await one.page.textContent("#problems"), "");
  equalPassages(await passages(one.page), ranByTheProgram(scenario.replace("6000 lbf", "7000 lbf")));
  await one.close();
});

test("what is saved keeps its author's comments, opens again, and is drilled alike by the program", async () => {
  const one = await opened("what_if.html");
  await drilled(one.page);
  await set(one.page, "Weight", "7500");
  await set(one.page, "Leached from the face", "0.008 in");
  await changesSaid(one.page, "bit.cutter.leach_depth=0.008 in");
  await settled(one.page);
  const before = await passages(one.page);
  const [download] = await Promise.all([one.page.waitForEvent("download"), one.page.click("#save")]);
  const saved = readFileSync(await download.path(), "utf8");
  assert.ok(saved.includes("7500 lbf") && saved.includes("# a bit of scenarios/library/bits.yaml"), saved);
  equalPassages(before, ranByTheProgram(saved));
  const folder = mkdtempSync(join(tmpdir(), "pages-"));
  writeFileSync(join(folder, "mine.yaml"), saved);
  await one.page.click("#text-part > summary");
  await one.page.setInputFiles("#open", join(folder, "mine.yaml"));
  await one.page.waitForFunction((text) => document.getElementById("text").value === text, saved);
  rmSync(folder, { recursive: true });
  await one.page.waitForFunction(() => document.getElementById("changes").textContent === "" && dullcast.whatIf.variants()[0].key);
  await settled(one.page);
  assert.deepEqual(await passages(one.page), before);
  await one.close();
});

test("pictures follow the cursor, and units are switched", async () => {
  const one = await opened("what_if.html");
  await drilled(one.page);
  const bit = await one.page.textContent("#bit-title");
  await one.page.locator("#tracks [role=slider], #tracks [tabindex='0']").first().focus();
  await one.page.keyboard.press("Home");
  await one.page.waitForFunction((words) => document.getElementById("bit-title").textContent !== words, bit);
  await one.page.selectOption("#units", "si");
  assert.match(await one.page.textContent("#comparison"), /°C/);
  assert.doesNotMatch(await one.page.textContent("#comparison"), /°F/);
  await one.close();
});

test("the run card prints on one page", async () => {
  const one = await opened("what_if.html");
  await drilled(one.page);
  await one.page.click("#make-card");
  await one.page.waitForSelector("#card .card", { timeout: 150000 });
  for (const format of ["Letter", "A4"]) {
    // What the button does before it calls the browser's own print, which undoes it afterwards.
    await one.page.evaluate(() => {
      window.print = () => {};
      document.getElementById("print-card").click();
    });
    assert.equal(await sheets(one.page, format), 1, format);
  }
  await one.close();
});

for (const [what, settings] of [["light", {}], ["dark", { colorScheme: "dark" }], ["a phone", { viewport: { width: 390, height: 844 } }]]) {
  test(`axe-core finds no serious fault: ${what}`, async () => {
    const one = await opened("what_if.html", settings);
    await drilled(one.page);
    await one.page.click("#add");
    await set(one.page, "Speed", "120");
    await drilled(one.page, 2);
    await settled(one.page);
    await one.page.click("#text-part > summary");
    await isAccessible(one.page, what);
    await fitsItsWidth(one.page, what);
    await one.close();
  });
}
