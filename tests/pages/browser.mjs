// A page in a real browser. Faults are what no page of ours may do: an error on the console, an exception, a request off
// the page, a serious finding of axe-core. The environment names what is tried:
//   DULLCAST_PAGES         folder with lesson.html, what_if.html ...
//   DULLCAST               the program, for its own numbers
//   DULLCAST_NODE_MODULES  folder with playwright-core and axe-core (tests/pages/node_modules where it is not given)
//   DULLCAST_CHROMIUM      the browser (/usr/bin/chromium-headless-shell)
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const modules = process.env.DULLCAST_NODE_MODULES ?? join(root, "tests/pages/node_modules");
const require = createRequire(join(modules, "here.js"));
const { chromium } = require("playwright-core");
const axeSource = readFileSync(join(modules, "axe-core/axe.min.js"), "utf8");

export const pages = process.env.DULLCAST_PAGES ?? join(root, "build/pages");
export const program = process.env.DULLCAST ?? join(root, "build/dullcast");

let browser = null;
export async function startBrowser() {
  browser = await chromium.launch({
    executablePath: process.env.DULLCAST_CHROMIUM ?? "/usr/bin/chromium-headless-shell",
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"],
  });
}
export async function stopBrowser() {
  if (browser) await browser.close();
  browser = null;
}

// Opens a page; `settings` as for a browser's context: viewport, colorScheme, reducedMotion. Gives {page, faults, close};
// close() fails the test when there were faults.
export async function opened(name, settings = {}) {
  const path = join(pages, name.split("#")[0]);
  assert.ok(existsSync(path), `${path} is not there: make it first (dullcast lesson, dullcast what-if)`);
  const context = await browser.newContext({ viewport: { width: 1400, height: 1000 }, acceptDownloads: true, ...settings });
  const page = await context.newPage();
  const faults = [];
  const own = pathToFileURL(path).href;
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => faults.push(`exception: ${error.stack}`));
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith("blob:") && !url.startsWith("data:") && url.split("#")[0] !== own) faults.push(`asked for ${url.slice(0, 200)}`);
  });
  const hash = name.includes("#") ? "#" + name.split("#")[1] : "";
  await page.goto(own + hash);
  return {
    page,
    faults,
    async close() {
      await context.close();
      assert.deepEqual(faults, []);
    },
  };
}

// Fails where axe-core finds something serious or critical on the page as it stands.
export async function isAccessible(page, what) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(async () => {
    const result = await window.axe.run(document, { resultTypes: ["violations"] });
    return result.violations
      .filter((v) => v.impact === "serious" || v.impact === "critical")
      .map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 4).map((n) => n.target.join(" ") + " " + (n.any[0] ? n.any[0].message : "")).join("; ")}`);
  });
  assert.deepEqual(found, [], what);
}

// The page is no wider than its window.
export async function fitsItsWidth(page, what) {
  const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
  assert.ok(wide <= room, `${what}: ${wide} pixels wide in ${room}`);
}

// Sheets of paper that the page takes.
export async function sheets(page, format = "Letter") {
  const pdf = (await page.pdf({ format, preferCSSPageSize: false, printBackground: true })).toString("latin1");
  return (pdf.match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
}

// What `dullcast run` finds of a scenario's text: the rows of its table of passages, SI units.
export function ranByTheProgram(text, sets = []) {
  const folder = mkdtempSync(join(tmpdir(), "pages-"));
  try {
    const scenario = join(folder, "scenario.yaml");
    writeFileSync(scenario, text);
    const table = join(folder, "passages.csv");
    const ran = spawnSync(program, ["run", scenario, "-o", join(folder, "run.h5"), "--central-only", "--csv", table,
      "--library", join(root, "scenarios/library"), ...sets.flatMap((set) => ["--set", set])], { encoding: "utf8" });
    assert.equal(ran.status, 0, ran.stderr);
    const [head, ...rows] = readFileSync(table, "utf8").trim().split("\n").map((line) => line.split(","));
    return rows.map((row) => Object.fromEntries(head.map((key, k) => [key, row[k]])));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

// Equal to the six figures that pages carry.
export function equalAsShown(shown, exact, what) {
  assert.ok(Math.abs(shown - exact) <= 1e-5 * Math.abs(exact) + 1e-12, `${what}: ${shown} on the page, ${exact} by the program`);
}
