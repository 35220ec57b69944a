#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""crash-test.py DOCUMENT
Kills the real program (SIGKILL, as a power cut would) at random moments of an editing session, and
looks at what is left: all of it must be readable, and no more than the last second missing. Every
key moves the ground by a tenth of a millimetre, so its origin tells how many changes are in.

PF_KILLS: how many times (8; 200 for the long run).  PF_SEED: repeats a run.
PF_PINFOLD and PF_LEFT tell where the programs are."""
import collections
import os
import random
import re
import resource
import shutil
import subprocess
import sys
import threading
import time
from pathlib import Path

from driver import Program, Tap, wait_until, xdotool

DOCUMENT = Path(sys.argv[1]).resolve()
FOLDER = Path(os.environ["HOME"])
KILLS = int(os.environ.get("PF_KILLS") or 8)
SEED = int(os.environ.get("PF_SEED") or time.time())
STEP = 0.1  # mm, of an arrow key
MAY_BE_LOST = 1.0  # seconds
SILENT = {"GTK_A11Y": "none"}  # starts sooner

Left = collections.namedtuple("Left", "kind x y name")


def read_left(state, *documents):
    """What can be read of work left behind and of documents, and what can't."""
    run = subprocess.run([os.environ["PF_LEFT"], state / "pinfold", *documents],
                         capture_output=True, text=True)
    good, bad = [], []
    for line in run.stdout.splitlines():
        kind, x, y, name = (line.split(" ", 3) + ["", "", ""])[:4]
        if kind in ("journal", "document"):
            good.append(Left(kind, float(x), float(y), name))
        else:
            bad.append(line)
    return good, bad + run.stderr.splitlines()


class Session:
    """A copy of the document in a folder of its own, open in the program, with the keyboard on the
    canvas at the ground step."""

    def __init__(self, name, env):
        self.folder = FOLDER / name
        self.state = self.folder / "state"
        self.folder.mkdir()
        self.document = self.folder / "leaf.pinfold"
        shutil.copy(DOCUMENT, self.document)
        self.start = self.read()[0][0]
        self.typed = []  # when each key that changes something was typed
        self.program = Program(self.document, env={**env, "XDG_STATE_HOME": str(self.state)},
                               restore_signals=False)
        wait_until(lambda: "Pinfold" in self.program.title() and "without a name" not in
                   self.program.title(), "the document's title")
        wait_until(self.key_arrives, "a key that reaches the canvas")
        self.program.key("ctrl+z")
        wait_until(lambda: not self.program.title().startswith("•"), "the key undone")

    def key_arrives(self):
        """A window may be seen before it hears: keys typed until then are lost."""
        xdotool("mousemove", "--window", self.program.window_id, 400, 300, "click", 1)
        xdotool("key", "Right")
        end = time.monotonic() + 2
        while time.monotonic() < end:
            if self.program.title().startswith("•"):
                return True
            time.sleep(0.05)
        return False

    def read(self):
        return read_left(self.state, *self.folder.glob("leaf.pinfold*"))

    def move(self):
        xdotool("key", random.choice(("Right", "Down")))
        self.typed.append(time.monotonic())

    def save(self):
        self.program.key("ctrl+s")

    def changes_in(self, left):
        return round((left.x - self.start.x + left.y - self.start.y) / STEP)


def edit_until_killed(session, seconds):
    """The moment of the kill, which comes whatever is being typed."""
    killed = []

    def kill():
        session.program.process.kill()
        killed.append(time.monotonic())

    timer = threading.Timer(seconds, kill)
    timer.start()
    while not killed:
        time.sleep(random.uniform(0.01, 0.15))
        try:
            session.save() if random.random() < 0.12 else session.move()
        except subprocess.CalledProcessError:
            assert killed  # a key for a window that is gone
    session.program.process.wait()
    return killed[0]


def look_at_remains(session, killed):
    good, bad = session.read()
    kept = max(session.changes_in(left) for left in good)
    due = sum(when < killed - MAY_BE_LOST for when in session.typed)
    before = sum(when <= killed for when in session.typed)
    journals = {left.name for left in good if left.kind == "journal"}
    for file in (session.state / "pinfold").glob("*.journal"):
        if str(file) not in journals:
            bad.append(f"{file} isn't offered")
    return kept, due, before, bad


def killed_at_random(tap):
    """Killed at random, all is readable and at most the last second is lost"""
    random.seed(SEED)
    print(f"# PF_SEED={SEED} PF_KILLS={KILLS}")
    unreadable, lost, most, all_typed, all_kept = [], [], 0, 0, 0
    for k in range(KILLS):
        session = Session(f"kill-{k}", SILENT)
        killed = edit_until_killed(session, random.uniform(0.05, 4))
        kept, due, typed, bad = look_at_remains(session, killed)
        unreadable += [f"kill {k}: {line}" for line in bad]
        if kept < due:
            lost.append(f"kill {k}: {kept} of {typed} changes kept, {due} older than a second")
        if kept < typed:
            most = max(most, killed - session.typed[kept])
        all_typed, all_kept = all_typed + typed, all_kept + kept
        if k % 20 == 19:
            print(f"# {k + 1} kills: {all_kept} of {all_typed} changes kept", flush=True)
        if not bad and kept >= due:
            shutil.rmtree(session.folder)
    print(f"# {all_kept} of {all_typed} changes kept, the oldest lost one {most:.2f} s old")
    tap.ok(not unreadable, f"{KILLS} kills: every document is readable", *unreadable)
    tap.ok(not lost and all_kept > 0, f"{KILLS} kills: at most the last second is lost", *lost)


def offered_again(tap):
    """The next start offers what was left behind"""
    session = Session("offered", {})
    for _ in range(10):
        session.move()
    wait_until(lambda: list((session.state / "pinfold").glob("*.journal")), "the journal")
    time.sleep(MAY_BE_LOST)
    session.program.kill()
    kept = max(session.changes_in(left) for left in session.read()[0])
    tap.equal(kept, 10, "All ten changes are left behind")
    program = Program(env={"XDG_STATE_HOME": str(session.state)})
    program.wait_for_window("Work left behind")
    program.press(re.compile("Open it.*"), "push button")
    program.wait_gone("Work left behind")
    wait_until(lambda: program.title().startswith("•"), "a title that says it isn't saved")
    tap.ok(True, offered_again.__doc__)
    program.key("ctrl+s")
    wait_until(lambda: not program.title().startswith("•"), "a title that says it is saved")
    saved = [left for left in session.read()[0] if left.name == str(session.document)]
    tap.equal([session.changes_in(left) for left in saved], [10], "It is saved where it came from")
    tap.equal(program.close(), 0, "Closed without a question")


def full_disk(tap):
    """Saving where nothing more can be written leaves the old file, and says so"""
    session = Session("full", {})
    before = session.document.read_bytes()
    program = session.program
    limits = resource.prlimit(program.process.pid, resource.RLIMIT_FSIZE)
    resource.prlimit(program.process.pid, resource.RLIMIT_FSIZE, (len(before) // 2, limits[1]))
    session.move()
    wait_until(lambda: program.title().startswith("•"), "a title that says it isn't saved")
    session.save()
    said = program.find(re.compile(r".*leaf\.pinfold” can.t be saved: .*"), "label").name
    tap.ok("What was there before is unchanged" in said, "The window says that nothing was saved",
           said)
    tap.ok(session.document.read_bytes() == before, "The old file is as it was")
    tap.ok(program.title().startswith("•"), "The title says that it isn't saved")
    left = sorted(file.name for file in session.folder.iterdir())
    tap.equal(left, ["leaf.pinfold", "state"], "No half file lies about")

    resource.prlimit(program.process.pid, resource.RLIMIT_FSIZE, limits)
    session.save()
    wait_until(lambda: not program.title().startswith("•"), "a title that says it is saved")
    good, bad = session.read()
    tap.equal((sorted(session.changes_in(document) for document in good), bad), ([0, 1], []),
              "With room again, it and its last version are saved")
    tap.equal(program.close(), 0, "Closed without a question")


Tap().run(killed_at_random, offered_again, full_disk)
