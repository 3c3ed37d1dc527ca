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

const shopData = (one) => one.page.evaluate(() => JSON.parse(document.getElementById("shops-data").textContent)[0]);

test("a shop's first screen says how many bits, late holes, how long, and whether another bench is worth it", async () => {
  const one = await opened("shop.html");
  const shop = await shopData(one);
  const summary = await one.page.textContent("#summary");
  for (const words of [shop.headline.arrivals, shop.headline.busiest, shop.headline.late, shop.headline.turnaround, shop.headline.turnaround_high, shop.headline.answer])
    assert.ok(words.length > 3 && summary.includes(words), words);
  // In the window that it opens in, and every change that was tried with its words.
  assert.ok(await one.page.evaluate(() => document.getElementById("answer").getBoundingClientRect().bottom < window.innerHeight));
  for (const change of shop.changes.slice(1)) assert.ok(summary.includes(change.words), change.what);
  assert.ok(summary.includes("makes no difference that these futures can tell"));
  const told = spawnSync(program, ["show", join(pages, "shop.h5")], { encoding: "utf8" });
  assert.equal(told.status, 0, told.stderr);
  assert.ok(told.stdout.includes(shop.headline.answer) && told.stdout.includes(shop.headline.busiest), told.stdout);
  const all = (await one.page.textContent("body")).toLowerCase();
  for (const word of ["estimates", "brazing", "dust", "heavy lifts", "local codes"]) assert.ok(all.includes(word), word);
  await one.close();
});

test("the days of a bit are read with the keys and the pointer", async () => {
  const one = await opened("shop.html");
  const shop = await shopData(one);
  const status = () => one.page.textContent("#days .figure-status");
  const expected = (bit, day) => {
    const most = Math.max(...shop.bits[bit].days[day]), place = shop.places[shop.bits[bit].days[day].indexOf(most)].words;
    return { begin: shop.bits[bit].name + ", ", date: shop.days[day].date, words: `${place} ${Math.round(most / 10)}\u00a0%` };
  };
  const reads = async (bit, day) => {
    const { begin, date, words } = expected(bit, day), text = await status();
    assert.ok(text.startsWith(begin) && text.includes(date) && text.includes(words), `${text}: ${begin} ${date} ${words}`);
  };
  await one.page.focus("#days .overlay");
  await reads(0, 0);
  for (const key of ["ArrowDown", "ArrowDown", "PageDown", "PageDown", "ArrowRight", "ArrowLeft", "ArrowRight"]) await one.page.keyboard.press(key);
  await reads(2, 15);
  assert.equal(await one.page.getAttribute("#days .overlay", "aria-valuetext"), await status());
  await one.page.keyboard.press("End");
  await reads(2, shop.days.length - 1);
  const box = await (await one.page.$("#days .overlay")).boundingBox();
  await one.page.mouse.move(box.x + (box.width * 60.5) / shop.days.length, box.y + (box.height * 7.3) / shop.bits.length);
  await reads(7, 60);
  await one.close();
});

test("each day of a bit has the colour of its likeliest place, the stronger the surer", async () => {
  const one = await opened("shop.html");
  const shop = await shopData(one);
  const found = await one.page.evaluate(() => {
    const runs = Array.from(document.querySelectorAll("#days .day-run"), (r) => [r.y.baseVal.value, r.x.baseVal.value, r.width.baseVal.value, r.style.fill, +r.style.fillOpacity]);
    const overlay = document.querySelector("#days .overlay");
    return { runs, left: overlay.x.baseVal.value, wide: overlay.width.baseVal.value, colours: dullcast.placeColours };
  });
  const first = Math.min(...found.runs.map((r) => r[0]));
  for (const day of [0, 20, 90, 181]) {
    const x = found.left + ((day + 0.5) * found.wide) / shop.days.length;
    const run = found.runs.find((r) => r[0] === first && r[1] <= x && x < r[1] + r[2]);
    const shares = shop.bits[0].days[day], most = Math.max(...shares);
    assert.equal(run[3], found.colours[shop.places[shares.indexOf(most)].name], `day ${day}`);
    assert.ok(Math.abs(run[4] - (0.12 + 0.88 * most / 1000)) < 0.05, `day ${day}: ${run[4]} of ${most}`);
  }
  // Every bit that is due has its date beneath, and every pull its mark.
  assert.equal((await one.page.$$("#days .due-span")).length, shop.bits.filter((b) => b.due.middle).length);
  assert.equal((await one.page.$$("#days .pull-mark")).length, shop.early_pulls.length);
  await one.close();
});

test("a shop's charts and tables hold every station, cutter, bit and change", async () => {
  const one = await opened("shop.html");
  const shop = await shopData(one);
  assert.equal((await one.page.$$("#load svg")).length, shop.stations.length + 1);
  assert.equal((await one.page.$$("#cutters svg")).length, shop.cutters.length);
  for (const [section, rows] of [["bits", shop.bits.length], ["changes", shop.changes.length], ["early", shop.early_pulls.length], ["money", 5]])
    assert.equal((await one.page.$$(`#${section} tbody tr`)).length, rows, section);
  // What the futures cannot tell from nothing is not shown as saved.
  const cells = await one.page.$$eval("#changes tbody tr", (all) => all.map((row) => row.querySelectorAll("td")[2].firstChild.className));
  assert.deepEqual(cells.map((c) => c.includes("open")), shop.changes.map((c) => !c.more.total_tells));
  await one.page.click(".all-weeks summary");
  const weeks = await one.page.$$eval(".all-weeks tbody tr", (all) => all.map((row) => row.firstChild.textContent));
  assert.deepEqual(weeks, shop.weeks.begin.map((w) => w.text));
  await one.close();
});

test("a shop's page prints on a few sheets", async () => {
  const one = await opened("shop.html", { colorScheme: "dark" });
  for (const format of ["Letter", "A4"]) {
    const count = await sheets(one.page, format);
    assert.ok(count >= 3 && count <= 8, `${count} sheets of ${format}`);
  }
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
  ["shop.html", {}, "shop, light"],
  ["shop.html", { colorScheme: "dark" }, "shop, dark"],
  ["shop.html", { viewport: { width: 390, height: 844 } }, "shop on a phone"],
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
  for (const page of ["report.html", "report_of_two.html", "card.html", "sweep.html", "shop.html"]) assert.ok(statSync(join(pages, page)).size < 3e6, page);
});
