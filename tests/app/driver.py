# SPDX-License-Identifier: GPL-3.0-or-later
"""Drives the real program as a maker does: with keys and a pointer (xdotool), reading what is on
the screen as a screen reader does (AT-SPI). Nothing is taken from inside the program."""
import os
import re
import signal
import subprocess
import sys
import time
import traceback

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402
import pyatspi  # noqa: E402

PATIENCE = 60  # seconds, for a machine with much else to do

# Actions that come with every widget of a kind, and aren't what it is for.
BY_THE_WAY = re.compile(r"^(clipboard|selection|link|menu|window|default|misc|win|app)\.")


def xdotool(*words):
    return subprocess.run(["xdotool", *map(str, words)], check=True, capture_output=True,
                          text=True).stdout


def wait_until(condition, what, patience=PATIENCE):
    """What `condition` gives once it is true; an AssertionError after `patience` seconds."""
    end = time.monotonic() + patience
    while True:
        got = condition()
        if got:
            return got
        if time.monotonic() > end:
            raise AssertionError("waited in vain for " + what)
        time.sleep(0.05)


# --- TAP -----------------------------------------------------------------------------------------


class Tap:
    def __init__(self):
        self.n = 0
        self.failed = False

    def ok(self, good, what, *details):
        self.n += 1
        self.failed |= not good
        print(f"{'ok' if good else 'not ok'} {self.n} {what}")
        for detail in () if good else details:
            for line in str(detail).splitlines():
                print("# " + line)
        sys.stdout.flush()
        return good

    def equal(self, got, wanted, what):
        return self.ok(got == wanted, what, f"got    {got!r}", f"wanted {wanted!r}")

    def run(self, *parts):
        """Each part is a function with a test's words as its docstring; its failing is a failed
        test, and the next part goes on."""
        for part in parts:
            try:
                part(self)
            except Exception:  # whatever it is, the test failed
                self.ok(False, part.__doc__ or part.__name__, traceback.format_exc())
                Program.end_all()
        print(f"1..{self.n}")
        sys.exit(1 if self.failed else 0)


# --- What is on the screen -----------------------------------------------------------------------


def settle_messages():
    while GLib.MainContext.default().iteration(False):
        pass


def children(node):
    for i in range(node.childCount):
        child = node.getChildAtIndex(i)
        if child is not None:
            yield child


def has_state(node, state):
    return node.getState().contains(state)


def extents(node):
    try:
        e = node.queryComponent().getExtents(pyatspi.WINDOW_COORDS)
        return e.x, e.y, e.width, e.height
    except NotImplementedError:
        return None


def shown(node, window=None):
    """The node and all below it that has a place on the screen, with the window it is in. (So has a
    step that was left: GTK 4.8 doesn't tell it apart.)"""
    try:
        place = extents(node)
        if place and (place[2] <= 0 or place[3] <= 0) or not has_state(node, pyatspi.STATE_VISIBLE):
            return
        yield node, window or node
        for child in children(node):
            yield from shown(child, window or node)
    except GLib.Error:
        return  # it went away meanwhile


def plain_name(node):
    """The name as it is read: a button with a mnemonic has it before, as in "_Open Open"."""
    name = node.name or ""
    head, _, tail = name.partition(" ")
    while tail:
        if head.replace("_", "", 1) == tail and "_" in head:
            return tail
        more, _, tail = tail.partition(" ")
        head += " " + more
    return name.replace("_", "", 1)


def actions(node):
    try:
        action = node.queryAction()
    except NotImplementedError:
        return {}
    names = [action.getName(i) for i in range(action.nActions)]
    return {name: i for i, name in enumerate(names) if not BY_THE_WAY.match(name)}


# --- The program ---------------------------------------------------------------------------------


class Program:
    running = []

    @classmethod
    def end_all(cls):
        """A second start would only call up the program that runs already."""
        for program in cls.running:
            program.kill()

    def __init__(self, *arguments, env=None, restore_signals=True):
        self.process = subprocess.Popen(
            [os.environ["PF_PINFOLD"], *map(str, arguments)], env={**os.environ, **(env or {})},
            restore_signals=restore_signals)
        Program.running.append(self)
        self.window_id = self.wait_for_window(r"Pinfold$")

    # Windows

    def windows(self, title):
        return subprocess.run(["xdotool", "search", "--onlyvisible", "--name", title],
                              capture_output=True, text=True).stdout.split()

    def wait_for_window(self, title):
        def found():
            assert self.process.poll() is None, f"the program ended: {self.process.returncode}"
            return self.windows(title)

        window = wait_until(found, f"the window “{title}”")[-1]
        xdotool("windowactivate", "--sync", window)
        return window

    def wait_gone(self, title):
        wait_until(lambda: not self.windows(title), f"the end of the window “{title}”")

    def title(self):
        return xdotool("getwindowname", self.window_id).strip()

    def close(self):
        """Closes the window and gives the exit status."""
        self.key("ctrl+w")
        return self.process.wait(PATIENCE)

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    # Keys and pointer

    def key(self, *keys):
        xdotool("key", "--delay", 20, *keys)

    def type(self, text):
        xdotool("type", "--delay", 5, text)

    def drag(self, start, by, moves=15):
        xdotool("mousemove", *start)
        time.sleep(0.1)
        xdotool("mousedown", 1)
        for m in range(1, moves + 1):
            xdotool("mousemove", start[0] + round(by[0] * m / moves),
                    start[1] + round(by[1] * m / moves))
            time.sleep(0.03)
        xdotool("mouseup", 1)

    def choose_file(self, keys, title, path):
        """In the file chooser that `keys` open, types the path of a file."""
        if keys:
            self.key(keys)
        self.wait_for_window(title)
        time.sleep(0.5)
        self.key("ctrl+a")
        self.type(str(path))
        time.sleep(0.3)
        self.key("Return")
        self.wait_gone(title)
        xdotool("windowactivate", "--sync", self.window_id)

    # What is heard

    def application(self):
        settle_messages()
        for node in children(pyatspi.Registry.getDesktop(0)):
            try:
                if node.get_process_id() == self.process.pid:
                    node.clear_cache()
                    Atspi.Accessible.set_cache_mask(node, Atspi.Cache.NONE)
                    return node
            except GLib.Error:
                continue
        return None

    def everything(self):
        application = wait_until(self.application, "the program on the accessibility bus")
        for window in children(application):
            yield from shown(window)

    def look_for(self, name, role=None):
        matches = name.fullmatch if isinstance(name, re.Pattern) else name.__eq__
        best = None
        for node, window in self.everything():
            if role and node.getRoleName() != role:
                continue
            if matches(plain_name(node)):
                if has_state(node, pyatspi.STATE_SENSITIVE) and (role or actions(node)):
                    return node, window
                best = best or (node, window)
        return best

    def find(self, name, role=None):
        return wait_until(lambda: self.look_for(name, role), f"{role or 'something'} “{name}”")[0]

    def press(self, name, role=None):
        """Does what the widget of that name is for."""
        node = self.find(name, role)
        wait_until(lambda: has_state(node, pyatspi.STATE_SENSITIVE), f"“{name}” to be of use")
        index = next(iter(actions(node).values()), None)
        if index is None:
            self.click(name, role)
            return
        assert node.queryAction().doAction(index), f"“{name}” can't be pressed"

    def place(self, node, window):
        """The middle of it on the screen. The window's frame is as thick on all sides."""
        x, y, width, height = extents(node)
        frame = extents(window)
        lines = xdotool("getwindowgeometry", "--shell", self.window_id).splitlines()
        geometry = dict(line.split("=") for line in lines)
        thick_x = (int(geometry["WIDTH"]) - frame[2]) // 2
        thick_y = (int(geometry["HEIGHT"]) - frame[3]) // 2
        return (int(geometry["X"]) + thick_x + x + width // 2,
                int(geometry["Y"]) + thick_y + y + height // 2)

    def click(self, name, role=None):
        node, window = wait_until(lambda: self.look_for(name, role), f"{role} “{name}”")
        xdotool("mousemove", *self.place(node, window))
        time.sleep(0.1)
        xdotool("click", 1)

    def roll_over(self, name, role, clicks):
        """Turns the wheel down with the pointer over the widget, wherever it goes."""
        node, window = wait_until(lambda: self.look_for(name, role), f"{role} “{name}”")
        xdotool("mousemove", *self.place(node, window))
        time.sleep(0.1)
        xdotool("click", "--repeat", clicks, "--delay", 40, 5)

    def tab_to(self, node, most=80):
        """Presses Tab until the node has the keyboard."""
        for _ in range(most):
            if has_state(node, pyatspi.STATE_FOCUSED):
                return
            self.key("Tab")
            time.sleep(0.15)
        raise AssertionError(f"Tab never comes to “{node.name}”")

    def teller(self):
        """What speaks for the canvas."""
        canvas = self.find("Drawing", "panel")
        return next(child for child in children(canvas))

    def counts(self):
        """The node of the status line's counts, when they are there."""
        return self.find(re.compile(r"\d+ pairs?, at most .*"), "label")

    def wait_for_change(self, node, old, what):
        return wait_until(lambda: node.name != old and node.name, what)
