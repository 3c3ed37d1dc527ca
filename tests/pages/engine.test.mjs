// The engine of the pages, in Node, beside the program: the same scenario gives the same numbers, to the last bit
// (DEVELOPERS.md, "The same numbers everywhere").
import test from "node:test";
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { greatestDifference, libraryTexts, nativeAnswers, root, scenarioText } from "./numbers.mjs";

const require = createRequire(import.meta.url);

async function openedEngine() {
  const folder = process.env.DULLCAST_PAGE_ENGINE ?? join(root, "tools/pages/engine");
  const make = require(join(folder, "program.js"));
  const engine = await make({ wasmBinary: gunzipSync(readFileSync(join(folder, "program.wasm.gz"))) });
  const answer = (request) => {
    const text = JSON.stringify(request);
    const bytes = engine.lengthBytesUTF8(text) + 1;
    const place = engine._malloc(bytes);
    engine.stringToUTF8(text, place, bytes);
    const told = engine.UTF8ToString(engine._dullcast_answer(place));
    engine._free(place);
    return JSON.parse(told);
  };
  const opened = answer({ ask: "open", library: libraryTexts() });
  assert.ok(opened.ok, opened.problems?.join("\n"));
  return answer;
}

const compared = [
  { file: "one_shallow_well.yaml" },
  { file: "field_of_forty_wells.yaml" },
  { file: "pump_lost.yaml" },
  { file: "gravel_lens.yaml" },
  { file: "poor_lot.yaml" },
  { file: "cutter_burnt.yaml" },
  { file: "cutter_kept_cool.yaml" },
  { file: "rebuilt_bit.yaml" },
  { file: "field_of_forty_wells.yaml", sets: ["plan.0.rotary_speed=70 rpm", "bit.starting_wear=0.4 mm"] },
];

test("numbers are the program's to the last bit", async (t) => {
  const answer = await openedEngine();
  const requests = compared.map((one) => ({ ask: "run", exact: true, rows: 60, scenario: scenarioText(one.file), ...one }));
  const native = nativeAnswers(requests);
  for (let i = 0; i < requests.length; i += 1) {
    await t.test(`${requests[i].file} ${requests[i].sets ?? ""}`, () => {
      const here = answer(requests[i]);
      assert.ok(here.ok && native[i].ok, (here.problems ?? native[i].problems)?.join("\n"));
      const worst = greatestDifference(here.numbers, native[i].numbers);
      assert.equal(worst.difference, 0, `${worst.path} differs by ${worst.difference} of itself`);
    });
  }
});

test("mistakes are told in the program's words", async () => {
  const answer = await openedEngine();
  const requests = [
    { ask: "check", file: "a.yaml", scenario: scenarioText("one_shallow_well.yaml"), sets: ["plan.0.weight_on_bit=6750 wobbles"] },
    { ask: "check", file: "a.yaml", scenario: "bit: [" },
    { ask: "run", file: "a.yaml", scenario: "name: nothing\n" },
    { ask: "dance", scenario: "" },
    { ask: "change", file: "a.yaml", scenario: scenarioText("one_shallow_well.yaml"), sets: ["plan.0.weight_on_bit=6000 lbf"] },
    { ask: "check", file: "a.yaml", scenario: scenarioText("rebuilt_bit.yaml") },
  ];
  const native = nativeAnswers(requests);
  requests.forEach((request, i) => assert.deepEqual(answer(request), native[i]));
  assert.equal(native[0].ok, false);
  assert.match(native[0].problems[0], /wobbles/);
  assert.equal(native[4].ok, true);
});
