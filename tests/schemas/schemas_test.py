#!/usr/bin/python3
"""The shipped JSON schemas, tried with programs that know nothing of dullcast (jsonschema and PyYAML of Debian): each is a
schema, every shipped YAML file fits its own, and a list of broken ones is refused at the key that is wrong.
Usage: tests/schemas/schemas_test.py [SCENARIOS]"""

import copy
import json
import pathlib
import re
import sys
import unittest

import jsonschema
import yaml

SCENARIOS = pathlib.Path(sys.argv.pop(1) if len(sys.argv) > 1 else pathlib.Path(__file__).resolve().parents[2] / "scenarios")


class Core(yaml.SafeLoader):
    """YAML 1.2's core schema, which editors read: yes, off, 07:00 and 2031-11-03 are words."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("null", r"^(~|null|Null|NULL|)$", list("~nN") + [""]),
    ("bool", r"^(true|True|TRUE|false|False|FALSE)$", list("tTfF")),
    ("int", r"^[-+]?[0-9]+$", list("-+0123456789")),
    ("float", r"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$", list("-+.0123456789")),
):
    Core.add_implicit_resolver("tag:yaml.org,2002:" + tag, re.compile(pattern), first)


def read(path):
    return yaml.load(path.read_text(encoding="utf-8"), Core)


def schema(name):
    return json.loads((SCENARIOS / "schemas" / (name + ".json")).read_text(encoding="utf-8"))


def kind_of(path, value):
    if path.parent.name == "library":
        return path.stem
    if "shop" in value:
        return "shop_plan"
    if "inspected_bits" in value:
        return "learned"
    return "sweep_plan" if "factors" in value or "draws" in value else "scenario"


def faults(name, value):
    """Paths of what does not fit, the deepest of each alternative."""
    found = []

    def leaves(error):
        if not error.context:
            found.append((".".join(map(str, error.absolute_path)), error.message))
        for one in error.context or []:
            leaves(one)

    for error in jsonschema.Draft7Validator(schema(name)).iter_errors(value):
        leaves(error)
    return found


class Schemas(unittest.TestCase):
    def test_each_is_a_schema(self):
        files = sorted((SCENARIOS / "schemas").glob("*.json"))
        self.assertEqual(len(files), 12)
        for file in files:
            one = json.loads(file.read_text(encoding="utf-8"))
            jsonschema.Draft7Validator.check_schema(one)
            # Validators look a reference up only when they come by.
            named = set(re.findall(r'"\$ref": "#/definitions/(\w+)"', file.read_text(encoding="utf-8")))
            self.assertEqual(named, set(one["definitions"]), file.name)

    def test_every_shipped_file_fits(self):
        met = set()
        for path in sorted(SCENARIOS.glob("*.yaml")) + sorted((SCENARIOS / "library").glob("*.yaml")):
            value = read(path)
            kind = kind_of(path, value)
            met.add(kind)
            with self.subTest(file=path.name):
                self.assertEqual(faults(kind, value), [])
        self.assertEqual(met, {"scenario", "sweep_plan", "shop_plan", "learned", "rocks", "grades", "lots", "bodies", "fluids", "bits", "models"})

    def test_a_shelf_and_what_was_learnt_fit(self):
        shelf = {"shared": {"scenario": "ordinary_well.yaml", "lot": "spring"},
                 "shelf": [{"bit": "K-17", "inspected": "2031-04-17", "holes": 6, "drilled": "shale 300 m; sandstone 120 m", "outer_grade": 2},
                           {"bit": "K-18", "cutters": ["0.1 mm", "new", "lost", "at least 2 mm"], "cutter_3": "0.4 mm", "photos": ["a.jpg"]}]}
        self.assertEqual(faults("shelf", shelf), [])
        self.assertIn(("shelf.0", "'bit' is a required property"), faults("shelf", {"shelf": [{"holes": 6}]}))
        self.assertTrue(faults("shelf", {"shelf": [{"bit": "K", "cutter_x": "0.4 mm"}]}))
        learned = {"inspected_bits": 40, "models": {"abrasion_coefficient": {"low": "1e-9 mm3/(N m)", "central": "2e-9 mm3/(N m)", "high": "3e-9 mm3/(N m)",
                                                                           "mark": "fit", "source": "a shelf"}},
                   "together": {"numbers": ["abrasion_coefficient", "rock sandstone: cerchar_abrasivity"], "correlation": [[1], [-0.4, 1]]}}
        self.assertEqual(faults("learned", learned), [])
        self.assertTrue(faults("learned", {**learned, "inspected_bits": "many"}))

    def test_broken_ones_are_refused_where_they_are_wrong(self):
        whole = read(SCENARIOS / "rebuilt_bit.yaml")
        whole.update({"upsets": [{"from": "3 m", "lasts": "30 s", "pump": "off"}], "chance": {"draw": "yes", "seed": 7}})
        self.assertEqual(faults("scenario", whole), [])
        for place, value, said in (
            ("bit.diametre", "200 mm", "bit"),
            ("bit.diameter", 200, "bit.diameter"),
            ("bit.diameter", "two hundred", "bit.diameter"),
            ("bit.blades.nose_share", 7, "bit.blades.nose_share"),
            ("bit.ports.count", "four", "bit.ports.count"),
            ("bit.rebuilt.blades_built_up", "perhaps", "bit.rebuilt.blades_built_up"),
            ("fluid", ["water"], "fluid"),
            ("plan.0.rotary_speed", "fast", "plan.0.rotary_speed"),
            ("plan.0.rotary_sped", "80 rpm", "plan.0"),
            ("plan", {"from": "0 m"}, "plan"),
            ("upsets.0.pump", "of", "upsets.0.pump"),
            ("upsets.0.hole", "all", "upsets.0.hole"),
            ("column.layers.0.density", {"low": "2 kg/m3", "middle": "3 kg/m3"}, "column.layers.0.density"),
            ("repeat.holes", 0, "repeat.holes"),
            ("chance.seed", "seven", "chance.seed"),
            ("costs", "none", "costs"),
            ("stepping.output_every", 2, "stepping.output_every"),
            ("models.no_such_number", 1, "models"),
        ):
            with self.subTest(place=place, value=value):
                broken = copy.deepcopy(whole)
                here = broken
                steps = place.split(".")
                for step in steps[:-1]:
                    here = here[int(step)] if step.isdigit() else here.setdefault(step, {})
                here[steps[-1]] = value
                self.assertIn(said, {path for path, _ in faults("scenario", broken)})
        for key in ("bit", "fluid", "plan", "column"):
            with self.subTest(without=key):
                self.assertTrue(faults("scenario", {k: v for k, v in whole.items() if k != key}))

    def test_broken_plans_and_libraries_are_refused(self):
        sweep = read(SCENARIOS / "cheapest_settings.yaml")
        self.assertTrue(faults("sweep_plan", {**sweep, "design": {"kind": "guess"}}))
        self.assertTrue(faults("sweep_plan", {**sweep, "factor": []}))
        shop = read(SCENARIOS / "shop_season.yaml")
        self.assertTrue(faults("shop_plan", {**shop, "futures": 1}))
        self.assertTrue(faults("shop_plan", {**shop, "rigs": [{"name": "Heron", "travel": "2"}]}))
        self.assertTrue(faults("shop_plan", {**shop, "rocks": {}}))
        rocks = read(SCENARIOS / "library" / "rocks.yaml")
        first = next(iter(rocks))
        self.assertTrue(faults("rocks", {first: {**rocks[first], "density": "2400 kg/m3"}}))
        self.assertTrue(faults("rocks", {first: {k: v for k, v in rocks[first].items() if k != "density"}}))

    def test_keys_tell_what_they_mean(self):
        bit = schema("scenario")["properties"]["bit"]["properties"]
        self.assertIn("nominal diameter", bit["diameter"]["description"].lower())
        self.assertIn("7.875 in", bit["diameter"]["description"])
        plan = schema("scenario")["properties"]["plan"]["items"]["properties"]
        self.assertIn("90 rpm", plan["rotary_speed"]["description"])
        # What editors may offer; a scenario may have names of its own, so others fit as well.
        self.assertIn("four_blade_7_7_8", bit["like"]["examples"])
        layer = schema("scenario")["properties"]["column"]["properties"]["layers"]["items"]["properties"]
        self.assertEqual(set(layer["rock"]["examples"]), set(read(SCENARIOS / "library" / "rocks.yaml")))
        described = sum("description" in one for one in walk(schema("scenario")))
        keys = sum(1 for _ in walk(schema("scenario")))
        self.assertGreater(described / keys, 0.9, f"{described} of {keys} keys tell what they mean")


def walk(node):
    if isinstance(node, dict):
        for key, value in node.get("properties", {}).items():
            if isinstance(value, dict):
                yield value
        for value in node.values():
            yield from walk(value)
    elif isinstance(node, list):
        for value in node:
            yield from walk(value)


if __name__ == "__main__":
    unittest.main()
