// Comparing what two engines answer, number by number.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { spawnSync } from "node:child_process";

export const root = new URL("../..", import.meta.url).pathname;

export function libraryTexts() {
  const folder = join(root, "scenarios/library");
  const files = {};
  for (const name of readdirSync(folder)) {
    if (name.endsWith(".yaml")) files[name] = readFileSync(join(folder, name), "utf8");
  }
  return { folder: "library", files };
}

export function scenarioText(name) {
  return readFileSync(join(root, "scenarios", name), "utf8");
}

// Answers of the program (page-answers, named by the environment) to requests after opening the library.
export function nativeAnswers(requests) {
  const program = process.env.DULLCAST_PAGE_ANSWERS ?? join(root, "build/page-answers");
  const input = [{ ask: "open", library: libraryTexts() }, ...requests].map((one) => JSON.stringify(one)).join("\n") + "\n";
  const ran = spawnSync(program, [], { input, encoding: "utf8", maxBuffer: 1 << 30 });
  if (ran.status !== 0) throw new Error(`${program}: ${ran.error ?? ran.stderr}`);
  const answers = ran.stdout.trimEnd().split("\n").map((line) => JSON.parse(line));
  if (!answers[0].ok) throw new Error(answers[0].problems.join("\n"));
  return answers.slice(1);
}

// The greatest relative difference between numbers in the same place, and where it is; throws where the two differ in
// shape or in words.
export function greatestDifference(one, other, path = "") {
  if (typeof one === "number" && typeof other === "number") {
    const scale = Math.max(Math.abs(one), Math.abs(other));
    return { path, difference: scale === 0 ? 0 : Math.abs(one - other) / scale };
  }
  if (one === null || other === null || typeof one !== "object" || typeof other !== "object") {
    if (one !== other) throw new Error(`${path}: ${JSON.stringify(one)} and ${JSON.stringify(other)}`);
    return { path, difference: 0 };
  }
  const keys = Object.keys(one);
  if (keys.length !== Object.keys(other).length) throw new Error(`${path}: ${keys} and ${Object.keys(other)}`);
  let worst = { path, difference: 0 };
  for (const key of keys) {
    if (!(key in other)) throw new Error(`${path}.${key} is in one alone`);
    const here = greatestDifference(one[key], other[key], `${path}.${key}`);
    if (here.difference > worst.difference) worst = here;
  }
  return worst;
}
