"""The copy of the tree that spoilt-code builds: its sources switched (spoilt_sites), a watch in each test program."""

import json
import os
import pathlib
import re
import shutil
import subprocess

import spoilt_sites

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
ROUNDS = 15  # of compiling and dropping what does not compile; in the last LARGE ones whole lines are dropped
LARGE = 5
COMPLAINT = re.compile(r"^(/\S+?):(\d+):(\d+):\s+(error|fatal error|note|required)\b[: ]*(.*)", re.M)


class BuildError(Exception):
    """One sentence, and what the compiler said."""


class Build:
    """The copy of the tree, its switched sources and its test programs."""

    def __init__(self, folder, sources, programs, jobs):
        folder = folder.resolve()
        self.tree, self.build, self.switch, self.sources, self.jobs = folder / "tree", folder / "build", folder / "switch", sources, jobs
        self.by_path = {str(self.tree / source.name): source for source in sources}
        self.known = folder / "dropped.json"  # what an earlier run in this folder had to drop
        for source in sources:
            source.recall((json.loads(self.known.read_text()) if self.known.exists() else {}).get(source.name))

        def unwanted(of, names):
            """What is built stands at the top only: tools/build is the project's own."""
            return [name for name in names if name == "__pycache__"
                    or (pathlib.Path(of) == ROOT and (name == ".git" or name.startswith("build")))]

        for left in self.tree.rglob("*"):  # of an earlier run: a source that the project dropped would be built all the same
            if left.is_file() and not (ROOT / left.relative_to(self.tree)).exists():
                left.unlink()
        shutil.copytree(ROOT, self.tree, ignore=unwanted, dirs_exist_ok=True, copy_function=self.copy)
        self.copy(HERE / "spoilt_switch.hpp.in", self.switch / "spoilt_switch.hpp")
        folders = self.configure()
        self.programs = [program for program in programs if program in folders]
        if not self.programs:
            raise BuildError(f"the project has none of the test programs {', '.join(programs)}")
        for program in self.programs:
            self.copy(HERE / "spoilt_watch.cpp.in", folders[program] / "spoilt_watch_test.cpp")
        self.configure()

    def copy(self, start, end):
        """Copies what has changed; switched sources are written apart."""
        if str(end) not in self.by_path:
            write_changed(pathlib.Path(end), pathlib.Path(start).read_bytes())
            shutil.copymode(start, end)

    def configure(self):
        """Reads the build files; the folder of the sources of each test program."""
        for source in self.sources:
            write_changed(self.tree / source.name, source.rewritten().encode())
        command = ["cmake", "-S", self.tree, "-B", self.build, "-G", "Unix Makefiles", "-DCMAKE_BUILD_TYPE=Release",
                   "-DCMAKE_EXPORT_COMPILE_COMMANDS=ON", f"-DCMAKE_CXX_FLAGS=-w -I{self.switch}"]
        ran = subprocess.run(command, capture_output=True, text=True, check=False)
        if ran.returncode != 0:
            raise BuildError(f"cmake does not configure the copy:\n{ran.stderr}")
        self.commands = json.loads((self.build / "compile_commands.json").read_text())
        folders = {}
        for entry in self.commands:
            target = re.search(r"CMakeFiles/(test_\w+)\.dir/", entry["command"])
            if target and entry["file"].startswith(str(self.tree)):
                folders.setdefault(target[1], pathlib.Path(entry["file"]).parent)
        return folders

    def compile(self):
        """Builds, dropping the places that do not compile; how many were dropped."""
        environment = {**os.environ, "LC_ALL": "C"}
        words = " ".join(entry["command"] for entry in self.commands)
        includes = sorted(set(re.findall(r"(?:-isystem |-I)\S+", words)))
        for header in self.sources:  # first by themselves: all that includes them waits for them
            if header.name.endswith(".hpp") and header.sites:
                command = ["c++", "-std=c++20", *" ".join(includes).split(), "-w", "-fsyntax-only", "-x", "c++"]
                self.until_it_compiles([*command, str(self.tree / header.name)], environment, header.name)
        targets = [f"-j{self.jobs}", "--target", *self.programs, "--", "-k"]
        self.until_it_compiles(["cmake", "--build", str(self.build), *targets], environment, "the copy")
        return sum(len(site.all_kinds) for source in self.sources for site in source.sites) - self.live()

    def live(self):
        return sum(len(site.kinds()) for source in self.sources for site in source.sites)

    def until_it_compiles(self, command, environment, what):
        for k in range(ROUNDS):
            ran = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
            if ran.returncode == 0:
                return
            if not self.drop(ran.stdout + ran.stderr, k >= ROUNDS - LARGE):
                raise BuildError(f"{what} does not compile:\n{(ran.stdout + ran.stderr)[-4000:]}")
            self.known.write_text(json.dumps({source.name: source.state() for source in self.sources}))
            for source in self.sources:
                write_changed(self.tree / source.name, source.rewritten().encode())
        raise BuildError(f"{what} still does not compile after {ROUNDS} rounds:\n{(ran.stdout + ran.stderr)[-4000:]}")

    def drop(self, log, whole_lines):
        """Drops what the compiler complains of; False when it is nothing of ours."""
        # Headers are named through the include roots, which are links.
        dropped, seen = set(), [(os.path.realpath(path), *rest) for path, *rest in COMPLAINT.findall(log)]
        for wanted in (("error", "fatal error"), ("required", "note")):
            for path, line, column, grade, message in seen:
                if grade not in wanted:
                    continue
                source = self.by_path.get(path)
                if re.search("constant expression|not captured|constexpr", message):
                    names = {name.split("::")[-1] for name in re.findall(r"'([\w:]+)'", message)}
                    dropped |= self.freeze(names, source)
                if source is None:
                    continue
                near = [site for site in source.sites if site.live() and site.line == int(line)]
                if whole_lines:
                    dropped |= set(near)
                elif near:
                    dropped.add(min(near, key=lambda site: distance(site.columns, int(column))))
            if dropped:
                break
        if not dropped:  # a line that reads a constant which must stay one
            for path, line, *_ in seen:
                text = pathlib.Path(path).read_text().split("\n")[int(line) - 1] if os.path.exists(path) else ""
                dropped |= self.freeze(set(re.findall(r"\w+", text)), self.by_path.get(path))
        for thing in dropped:
            if isinstance(thing, spoilt_sites.Constant):
                thing.kept = False
            else:
                thing.drop()
        return bool(dropped)

    def freeze(self, names, source):
        """The constants of these names, of the source itself or else of headers, which must stay constexpr."""
        everywhere = (constant for each in self.sources for constant in each.constants)
        kept = [constant for constant in everywhere if constant.kept and names & set(constant.names)]
        own = [constant for constant in kept if constant.source is source]
        return set(own or [constant for constant in kept if constant.source.name.endswith(".hpp")])


def distance(columns, column):
    return max(columns[0] - column, column - columns[1], 0)


def write_changed(path, content):
    if not path.exists() or path.read_bytes() != content:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
