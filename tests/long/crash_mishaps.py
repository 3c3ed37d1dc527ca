"""The mishaps of crash-recovery that are no kills: errors of the disk at every kind of call, damaged parts, a full disk, a
folder that may not be written in, changed plans, two sweeps at once. After each, --resume must finish with the file of an
uninterrupted sweep, byte for byte."""

import contextlib
import os
import pathlib
import random
import shutil
import signal
import subprocess
import time

import crash_stops
import small_sweep
from small_sweep import STOPPED, SmallSweep, cases_kept, part_files, parts_folder, run

HERE = pathlib.Path(__file__).resolve().parent


def build_shim(sweep, found):
    """The library that ends or fails the program at a call, and how many calls a sweep makes by its runs to a part, for 1
    and 8; (None, {}) without cc."""
    if not shutil.which("cc"):
        print("no C compiler: the program is not killed inside chosen calls", flush=True)
        return None, {}
    shim, count, calls = sweep.folder / "sudden_end.so", sweep.folder / "calls", {}
    subprocess.run(["cc", "-O1", "-shared", "-fPIC", "-o", shim, HERE / "sudden_end.c", "-ldl"], check=True)
    for size in (1, 8):
        folder = sweep.folder / f"counted_{size}"
        folder.mkdir()
        environment = {**os.environ, "LD_PRELOAD": str(shim), "SUDDEN_END_UNDER": str(folder), "SUDDEN_END_COUNT": str(count)}
        ran = run(sweep.words(folder / "sweep.h5", "--cases-per-part", size), env=environment)
        complaint = sweep.complaint(folder / "sweep.h5")
        if ran.returncode != 0 or complaint:
            found.fail("counting calls", f"ended with {ran.returncode}: {ran.stderr} {complaint}")
        calls[size] = int(count.read_text())
    print(f"{calls[1]} calls that change the disk, each a place to be killed", flush=True)
    return shim, calls


def shim_at(shim, folder, at, how):
    return {"LD_PRELOAD": str(shim), "SUDDEN_END_UNDER": str(folder), "SUDDEN_END_AT": str(at), "SUDDEN_END_HOW": how}


class Mishaps:
    def __init__(self, sweep, rng, found):
        self.sweep, self.rng, self.found = sweep, rng, found
        self.number = 0

    def place(self, kind):
        """A fresh output file in a folder of its own."""
        self.number += 1
        self.found.count("mishaps")
        folder = self.sweep.folder / f"{kind}_{self.number}"
        folder.mkdir()
        return folder / "sweep.h5"

    def must(self, what, holds, otherwise):
        if not holds:
            self.found.fail(what, otherwise)

    def resume(self, what, output, *more, **environment):
        """Goes on, and holds the finished file against the uninterrupted one's. Returns what was said."""
        ran = run(self.sweep.words(output, "--resume", *more), **environment)
        complaint = self.sweep.complaint(output)
        self.must(what, ran.returncode == 0 and not complaint,
                  f"{complaint}; the resume ended with {ran.returncode}: {ran.stdout} {ran.stderr[-500:]}")
        self.must(what, not parts_folder(output).exists(), "the finished sweep left its parts' folder behind")
        return ran.stdout + ran.stderr

    def begin_and_kill(self, output, share, size, **environment):
        """A sweep with about `share` of its runs in parts."""
        process = subprocess.Popen(self.sweep.words(output, "--cases-per-part", str(size)), stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL, **environment)
        while process.poll() is None and (cases_kept(output, self.sweep.cases) or 0) < share * self.sweep.cases:
            time.sleep(0.001)
        process.kill()
        process.wait()

    def refused(self, what, ran, *words, code=STOPPED):
        """Ends with `code` and says `words`, without a word of a crash."""
        said = ran.stdout + ran.stderr
        self.must(what, ran.returncode == code, f"ended with {ran.returncode}, not {code}: {said[-500:]}")
        for word in words:
            self.must(what, word in said, f"does not say \"{word}\": {said[-800:]}")

    # --- errors of the disk -------------------------------------------------------------------------------------------

    def failing_calls(self, shim, calls):
        for how in ("full", "broken", "once") * 8:
            output, at = self.place("failing"), self.rng.randint(1, calls)
            what = f"disk {how} from call {at} on"
            ran = run(self.sweep.words(output, "--cases-per-part", 1, "--threads", self.rng.choice([1, 2])),
                      env={**os.environ, **shim_at(shim, output.parent, at, how)})
            # A call on what is only being tidied away may fail without harm.
            if ran.returncode == 0:
                self.must(what, not self.sweep.complaint(output), f"ended with 0, but {self.sweep.complaint(output)}")
            else:
                self.refused(what, ran, "disk is full" if how == "full" else "nput/output error", str(output))
                self.must(what, not output.exists() or not self.sweep.complaint(output), "left a file that is not whole")
                self.found.count("errors of the disk survived")
            self.must(what, not list(output.parent.rglob(".dullcast-unfinished-*")) or how != "once",
                      "left an unfinished file behind, though it ended by its own hand")
            self.resume(what, output)

    def damaged_parts(self):
        other = SmallSweep(self.sweep.folder / "other", points=4, seed=11)
        strange = other.folder / "other.h5"
        other.run_straight()
        run(other.words(strange, "--cases-per-part", 1, "--keep-parts"))
        for _ in range(12):
            output, size = self.place("damage"), self.rng.choice([1, 2, 3])
            self.begin_and_kill(output, self.rng.uniform(0.3, 0.9), size)
            parts = part_files(output)
            chosen = self.rng.sample(parts, min(len(parts), self.rng.randint(1, 6)))
            for path in chosen:
                self.damage(path, part_files(strange)[0], parts)
            what = f"damaged parts, {self.number}"
            kept = cases_kept(output, self.sweep.cases)
            said = self.resume(what, output)
            for path in chosen:
                self.must(what, str(path) in said, f"does not name {path}: {said}")
            # The rest is kept: what was run anew is no more than was missing or damaged.
            before = small_sweep.cases_kept_before(said)
            self.must(what, before is not None and before >= kept - size * len(chosen),
                      f"of {kept} runs with {len(chosen)} damaged parts of {size} only {before} were kept")
            self.found.count("damaged parts", len(chosen))

    def damage(self, path, strange, parts):
        data = bytearray(path.read_bytes())
        kind = self.rng.choice(["bit", "bit", "bytes", "cut", "empty", "longer", "strange", "swapped", "folder"])
        others = [part for part in parts if part != path and part.is_file()]
        if kind == "bit":
            data[self.rng.randrange(len(data))] ^= 1 << self.rng.randrange(8)
        elif kind == "bytes":
            at = self.rng.randrange(len(data))
            data[at:at + 64] = random.Random(at).randbytes(len(data[at:at + 64]))
        elif kind in ("cut", "empty"):
            del data[self.rng.randrange(len(data)) if kind == "cut" else 0:]
        elif kind == "longer":
            data += b"\0" * self.rng.randint(1, 5000)
        elif kind == "strange":
            data = strange.read_bytes()
        elif kind == "swapped" and others:
            data = self.rng.choice(others).read_bytes()
        if kind == "folder":
            path.unlink()
            path.mkdir()
        else:
            if bytes(data) == path.read_bytes():
                data[0] ^= 1
            path.write_bytes(data)
        self.found.count(f"damage: {kind}")

    def damaged_manifest(self):
        output = self.place("manifest")
        self.begin_and_kill(output, 0.5, 2)
        began = parts_folder(output) / "began.yaml"
        text, parts = began.read_bytes(), {path: path.read_bytes() for path in part_files(output)}
        for damaged in (text[:len(text) // 3], b"", text.replace(b"shale", b"chale", 1), b"\xff" + text[1:]):
            began.write_bytes(damaged)
            ran = run(self.sweep.words(output, "--resume"))
            self.must("damaged began.yaml", ran.returncode in (3, STOPPED) and ran.stderr,
                      f"ended with {ran.returncode}: {ran.stderr[-300:]}")
            self.must("damaged began.yaml", all(path.exists() and path.read_bytes() == data for path, data in parts.items()),
                      "parts were touched")
        began.write_bytes(text)
        self.resume("began.yaml put back", output)

    @contextlib.contextmanager
    def small_disk(self, bytes_, more="rw"):
        folder = self.sweep.folder / f"disk_{self.number}"
        folder.mkdir()
        if subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={bytes_},{more}", "tmpfs", folder]).returncode != 0:
            raise OSError("cannot mount a small disk")
        try:
            yield folder
        finally:
            subprocess.run(["umount", "-l", folder], check=True)

    def refused_for_room(self, what, ran, folder):
        """Before anything is run, if what is left to do has no room, and otherwise when the disk is full."""
        self.refused(what, ran, "disk", "free, and what is left to do takes" if " free, and " in ran.stderr else "full", str(folder))

    def full_disk(self):
        if os.geteuid() != 0:
            return print("not root: no disk is filled", flush=True)
        need = self.measure_need()
        for share in [0.02, 0.2, 0.5, 0.7, 0.85, 0.9, 0.95, 0.97, 0.99]:
            self.number += 1
            self.found.count("mishaps")
            what = f"disk of {share} of what is needed"
            with self.small_disk(int(share * need)) as folder:
                output = folder / "sweep.h5"
                ran = run(self.sweep.words(output, "--cases-per-part", 2))
                self.refused_for_room(what, ran, folder)
                self.must(what, not output.exists(), "left a file that is not whole")
                kept = cases_kept(output, self.sweep.cases) or 0
                ran = run(self.sweep.words(output, "--resume"))
                self.refused_for_room(f"{what}, again", ran, folder)
                self.must(what, (cases_kept(output, self.sweep.cases) or 0) >= kept, "a resume on the full disk lost parts")
                subprocess.run(["mount", "-o", f"remount,size={4 * need}", folder], check=True)
                self.resume(what, output)
                self.found.count("full disks")

    def measure_need(self):
        """Bytes at the moment when parts and finished file stand side by side."""
        self.number += 1
        with self.small_disk(2 ** 30) as folder:
            run(self.sweep.words(folder / "sweep.h5", "--cases-per-part", 2, "--keep-parts"))
            room = os.statvfs(folder)
            return (room.f_blocks - room.f_bfree) * room.f_frsize

    def unwritable(self):
        root = os.geteuid() == 0
        # Root may write anywhere, so another user has to try.
        who = {"user": 65534, "group": 65534, "extra_groups": []} if root else {}
        output = self.place("unwritable")
        program = self.sweep.folder / "dullcast_for_all"
        shutil.copy2(small_sweep.PROGRAM, program)
        os.chmod(program, 0o755)
        os.chmod(output.parent, 0o555)
        words = self.sweep.words(output, "--cases-per-part", 2, program=str(program))
        self.refused("a folder that may not be written in", run(words, **who), str(output), "ermission denied")
        os.chmod(output.parent, 0o777)
        process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, **who)
        while process.poll() is None and (cases_kept(output, self.sweep.cases) or 0) < self.sweep.cases // 3:
            time.sleep(0.001)
        folders = [parts_folder(output), *parts_folder(output).glob("*/")]
        for folder in folders:
            os.chmod(folder, 0o555)
        said, _ = process.communicate()
        self.must("a folder closed on the way", process.returncode == STOPPED and "ermission denied" in said and "--resume" in said,
                  f"ended with {process.returncode}: {said[-500:]}")
        for folder in folders:
            os.chmod(folder, 0o777)
        ran = run([*words, "--resume"], **who)
        self.must("a folder opened again", ran.returncode == 0 and not self.sweep.complaint(output),
                  f"{self.sweep.complaint(output)}: {ran.stdout} {ran.stderr[-500:]}")
        nowhere = self.sweep.folder / "no" / "such" / "sweep.h5"
        ran = run(self.sweep.words(nowhere))
        self.must("a folder that is not there", ran.returncode == 0 or str(nowhere) in ran.stderr, f"says {ran.stderr}")
        ran = run(self.sweep.words(output.parent))
        self.must("a folder for a file", ran.returncode == STOPPED and str(output.parent) in ran.stderr,
                  f"ended with {ran.returncode}: {ran.stdout} {ran.stderr}")
        self.found.count("folders that may not be written in", 4)

    # --- changed, and twice -------------------------------------------------------------------------------------------

    def changed(self):
        rocks = self.sweep.library / "rocks.yaml"
        for path, old, new in [(self.sweep.plan, "to: 1.3", "to: 1.4"), (self.sweep.plan, f"seed: {self.sweep.seed}", "seed: 1234"),
                               (self.sweep.scenario, "2500 lbf", "2600 lbf"), (rocks, "\nsandstone:\n", "\nsandstone:  # new\n")]:
            output, what = self.place("changed"), f"{path.name} changed"
            self.begin_and_kill(output, self.rng.uniform(0.1, 0.9), 2)
            kept, text = part_files(output), path.read_text()
            self.must(what, text.count(old) == 1, f"the test's own slip: {old!r} is there {text.count(old)} times")
            path.write_text(text.replace(old, new))
            ran = run(self.sweep.words(output, "--resume"))
            line = new.strip()
            self.refused(what, ran, path.name, "was: ", "is:  ", line)
            self.must(what, kept == part_files(output), "a refused resume touched the parts")
            path.write_text(text)
            self.resume(what, output)
            self.found.count("changes refused")
            # The finished file is no less particular.
            path.write_text(text.replace(old, new))
            self.refused(f"{what} after the end", run(self.sweep.words(output, "--resume")), path.name, line)
            path.write_text(text)
        output = self.place("changed")
        other = self.sweep.folder / "another_dullcast"
        other.write_bytes(pathlib.Path(small_sweep.PROGRAM).read_bytes() + b"\0")
        os.chmod(other, 0o755)
        self.begin_and_kill(output, 0.5, 2)
        self.refused("another program", run(self.sweep.words(output, "--resume", program=str(other))), "program", "CRC-32")
        self.resume("the program put back", output)

    def two_at_once(self):
        for _ in range(6):
            output = self.place("twice")
            first = subprocess.Popen(self.sweep.words(output, "--cases-per-part", "2"), stdout=subprocess.PIPE,
                                     stderr=subprocess.STDOUT, text=True)
            while first.poll() is None and not part_files(output):
                time.sleep(0.001)
            first.send_signal(signal.SIGSTOP)  # a sweep of a second may end before another has begun
            self.must("the first of two", not output.exists(), "the test's own slip: it ended before the second began")
            self.refused("a second sweep", run(self.sweep.words(output, "--resume")), "another dullcast")
            self.refused("a second start", run(self.sweep.words(output)), "another dullcast")
            first.send_signal(signal.SIGCONT)
            said, _ = first.communicate()
            self.must("the first of two", first.returncode == 0 and not self.sweep.complaint(output),
                      f"{first.returncode}, {self.sweep.complaint(output)}: {said}")
            self.found.count("second sweeps refused", 2)
        for _ in range(20):  # begun as the first ends: while it puts the file together, or removes the parts
            output = self.place("ending")
            first = subprocess.Popen(self.sweep.words(output, "--cases-per-part", "2"), stdout=subprocess.PIPE,
                                     stderr=subprocess.STDOUT, text=True)
            while first.poll() is None and len(part_files(output)) < self.sweep.cases // 2:
                time.sleep(0.001)
            time.sleep(self.rng.uniform(0.0, 0.1))
            second = run(self.sweep.words(output, "--resume"))
            said, _ = first.communicate()
            known = second.returncode == 0 or (second.returncode == STOPPED and "another dullcast" in second.stderr)
            self.must("a second sweep as the first ends", known and first.returncode == 0 and not self.sweep.complaint(output)
                      and not pathlib.Path(f"{output}.parts").exists(),
                      f"{first.returncode} and {second.returncode}, {self.sweep.complaint(output)}: {said} / {second.stdout} {second.stderr}")
            self.found.count("second sweeps at the end")
        for _ in range(10):  # begun at the same time
            output = self.place("together")
            both = [subprocess.Popen(self.sweep.words(output, "--resume", "--cases-per-part", str(size)), stdout=subprocess.PIPE,
                                     stderr=subprocess.STDOUT, text=True) for size in (2, 3)]
            said = [process.communicate()[0] for process in both]
            codes = sorted(process.returncode for process in both)
            self.must("two begun together", codes == [0, STOPPED] and not self.sweep.complaint(output),
                      f"ended with {codes}, {self.sweep.complaint(output)}: {' / '.join(said)}")
            self.found.count("second sweeps refused")


def all_of_them(sweep, rng, found, shim, calls):
    mishaps = Mishaps(sweep, rng, found)
    if shim:
        mishaps.failing_calls(shim, calls[1])
    mishaps.damaged_parts()
    mishaps.damaged_manifest()
    mishaps.full_disk()
    mishaps.unwritable()
    mishaps.changed()
    mishaps.two_at_once()
    crash_stops.all_of_them(mishaps)
