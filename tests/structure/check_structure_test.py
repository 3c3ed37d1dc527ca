#!/usr/bin/env python3
"""tools/check-structure on made-up trees: a good one passes, and each fault put into it is told in a sentence."""

import contextlib
import importlib.machinery
import importlib.util
import io
import os
import sys
import tempfile
import unittest

sys.dont_write_bytecode = True

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
LOADER = importlib.machinery.SourceFileLoader("check_structure", os.path.join(ROOT, "tools", "check-structure"))
CHECK = importlib.util.module_from_spec(importlib.util.spec_from_loader("check_structure", LOADER))
LOADER.exec_module(CHECK)
GOOD = {
    "models/CMakeLists.txt": 'dullcast_room(models/common HOLDS "constants")\n'
                             'dullcast_room(models/wear HOLDS "wear" USES common)\n',
    "engine/CMakeLists.txt": 'dullcast_room(engine/storage HOLDS "files" USES wear\n  LIBRARIES hdf5)\n',
    "models/common/constants.hpp": "#pragma once\nnamespace dullcast {\nstruct Constant {};\n}\n",
    "models/wear/wear.hpp": '#pragma once\n#include "models/common/constants.hpp"\n'
                            "namespace dullcast::wear {\nstruct Wear { enum class Kind { a }; };\n}\n",
    "models/wear/wear.cpp": '#include "models/wear/wear.hpp"\n#include <cmath>\n'
                            "namespace dullcast::wear {\nnamespace {\nstruct Helper {};\n}\n}\n",
    "engine/storage/file.hpp": '#pragma once\n#include <H5Cpp.h>\n#include "models/wear/wear.hpp"\n'
                               "namespace dullcast::storage {\nnamespace format {}\n}\n",
    "tests/models/wear/wear_test.cpp": '#include "models/wear/wear.hpp"\n// namespace wrong {\n'
                                       "namespace dullcast::wear {\nnamespace {\n}\n}\n",
    "DEVELOPERS.md": "House.\n<!-- rooms: written by tools/check-structure --picture -->\n<!-- end of rooms -->\nMore.\n",
}


def check(folder, *words):
    """Exit status and words of tools/check-structure."""
    said, before = io.StringIO(), sys.argv
    sys.argv = ["check-structure", "--root", folder, *words]
    try:
        with contextlib.redirect_stdout(said):
            status = CHECK.main()
    finally:
        sys.argv = before
    return status, said.getvalue()


class Structure(unittest.TestCase):
    def said_of(self, changes=(), picture=True):
        """Exit status and words for the good tree with files changed, and its table of rooms made anew."""
        with tempfile.TemporaryDirectory() as folder:
            for name, text in {**GOOD, **dict(changes)}.items():
                os.makedirs(os.path.dirname(os.path.join(folder, name)), exist_ok=True)
                with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
                    file.write(text)
            if picture:
                self.assertEqual(check(folder, "--picture")[0], 0)
            ended = check(folder)
            with open(os.path.join(folder, "DEVELOPERS.md"), encoding="utf-8") as file:
                self.page = file.read()
            return ended

    def faults(self, name, text, *sentences):
        """Each sentence is told of the tree with this file, and nothing else."""
        status, said = self.said_of({name: text})
        told = [line for line in said.splitlines() if line.startswith("fault: ")]
        self.assertEqual(status, 1, said)
        self.assertEqual(len(told), len(sentences), said)
        for sentence in sentences:
            self.assertIn(sentence, said)

    def test_a_good_tree_has_no_fault_and_its_picture_is_put_between_the_marks(self):
        status, said = self.said_of()
        self.assertEqual((status, said), (0, "check-structure: 3 rooms, 5 sources, 0 faults\n"))
        self.assertIn("| engine/storage | wear | files |", self.page)
        self.assertTrue(self.page.startswith("House.\n") and self.page.endswith("-->\nMore.\n"))

    def test_an_include_that_the_uses_do_not_name(self):
        self.faults("engine/storage/more.cpp", '#include "models/common/constants.hpp"\nnamespace dullcast::storage {}\n',
                    "engine/storage/more.cpp:1: includes models/common/constants.hpp, and storage does not say that it USES common")

    def test_an_upward_include_that_the_uses_name(self):
        self.faults("models/CMakeLists.txt", GOOD["models/CMakeLists.txt"].replace("USES common", "USES common storage"),
                    "models/wear: USES storage and includes nothing of it", "models/wear: USES storage, which stands above it",
                    "rooms use one another in a circle: wear -> storage -> wear")

    def test_a_use_that_is_no_use_or_no_room(self):
        self.faults("engine/CMakeLists.txt", GOOD["engine/CMakeLists.txt"].replace("USES wear", "USES wear common attic"),
                    "engine/storage: USES common and includes nothing of it", "engine/storage: USES attic, which is no room")

    def test_an_include_that_climbs(self):
        self.faults("models/wear/up.cpp", '#include "../common/constants.hpp"\nnamespace dullcast::wear {}\n', "which goes up")

    def test_a_file_in_no_room(self):
        self.faults("engine/attic/old.cpp", "namespace dullcast::attic {}\n", "engine/attic/old.cpp: stands in no room")

    def test_a_namespace_that_is_not_the_folder_s(self):
        for text in ("namespace dullcast {}\n", "namespace dullcast::wearing {}\n", "namespace YAML { class Node; }\n"):
            self.faults("models/wear/other.cpp", text, "instead of dullcast::wear")
        self.faults("models/wear/other.hpp", "#pragma once\n", "models/wear/other.hpp: has no namespace")
        self.faults("tests/models/wear/more_test.cpp", "namespace dullcast::storage {}\n", "instead of dullcast::wear")

    def test_libraries_that_leave_their_room(self):
        for header, word in (("yaml-cpp/yaml.h", "yaml-cpp"), ("H5Cpp.h", "HDF5"), ("hdf5_hl.h", "HDF5"),
                             ("boost/numeric/odeint.hpp", "odeint"), ("mpi.h", "MPI")):
            self.faults("models/wear/other.cpp", f"#include <{header}>\nnamespace dullcast::wear {{}}\n", f"{word} stays within")

    def test_physics_that_print_wait_or_draw(self):
        for header in ("iostream", "fstream", "chrono", "random", "thread"):
            self.faults("models/wear/other.hpp", f"#include <{header}>\nnamespace dullcast::wear {{}}\n",
                        f"models/wear/other.hpp:1: includes <{header}>")

    def test_a_file_that_is_too_long(self):
        self.faults("models/wear/other.cpp", "namespace dullcast::wear {}\n" + "\n" * 320,
                    "models/wear/other.cpp: has 321 lines; 320 are the most")

    def test_two_types_of_one_name_are_a_note(self):
        status, said = self.said_of({"engine/storage/same.hpp": "namespace dullcast::storage {\nclass Wear final {};\n}\n"})
        self.assertEqual(status, 0, said)
        self.assertIn("note: two types are called Wear: engine/storage/same.hpp:2, models/wear/wear.hpp:4", said)

    def test_a_room_that_does_not_say_what_it_holds(self):
        self.faults("engine/CMakeLists.txt", "dullcast_room(engine/storage USES wear)\n", "storage does not say what it HOLDS")

    def test_a_picture_that_is_old_or_missing(self):
        status, said = self.said_of(picture=False)
        self.assertEqual(status, 1)
        self.assertIn("its table of rooms is not what the code has", said)
        status, said = self.said_of({"DEVELOPERS.md": "House.\n"}, picture=False)
        self.assertEqual(status, 1)
        self.assertIn("has no table of rooms", said)

    def test_an_empty_tree_is_no_good_tree(self):
        with tempfile.TemporaryDirectory() as folder:
            self.assertEqual(check(folder)[0], 1)


if __name__ == "__main__":
    unittest.main()
