#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""view-by-hand.py DOCUMENT
The view moved, zoomed and turned with the real pointer and keyboard. While an outline is drawn, the
canvas tells where on the sheet the pen is: that is what is measured."""
import contextlib
import math
import re
import sys
import time

from driver import Program, Tap, wait_until, xdotool

DOCUMENT = sys.argv[1]
AT = (300, 250)  # on the canvas, beside the leaf
TOLD = re.compile(r"(\d+) nodes? (?:is|are) drawn; the pen is at (-?[\d.]+), (-?[\d.]+) mm")


class Hand:
    def __init__(self, program):
        self.program = program
        self.teller = program.teller()

    def place(self, x, y):
        """Where on the sheet the pixel lies, mm."""
        xdotool("mousemove", x + 7, y + 7)
        time.sleep(0.15)
        before = self.teller.name
        xdotool("mousemove", x, y)
        with contextlib.suppress(AssertionError):
            wait_until(lambda: self.teller.name != before, "the pen at another place", 3)
        time.sleep(0.15)
        return tuple(map(float, TOLD.match(self.teller.name).groups()[1:]))

    def drag(self, start, by, button):
        xdotool("mousemove", *start)
        time.sleep(0.1)
        xdotool("mousedown", button)
        for m in range(1, 11):
            xdotool("mousemove", start[0] + by[0] * m // 10, start[1] + by[1] * m // 10)
            time.sleep(0.03)
        xdotool("mouseup", button)
        time.sleep(0.3)

    def wheel(self, clicks, key=None):
        """Down if positive."""
        if key:
            xdotool("keydown", key)
        for _ in range(abs(clicks)):
            xdotool("click", 5 if clicks > 0 else 4)
            time.sleep(0.05)
        if key:
            xdotool("keyup", key)
        time.sleep(0.4)

    def zoom(self):
        return int(self.program.find(re.compile(r"\d+ %"), "label").name.split()[0])


def near(a, b, slip=0.03):
    return math.dist(a, b) <= slip


def start(program):
    program.counts()
    program.key("alt+1")
    program.press("Pen", "push button")
    time.sleep(0.5)
    hand = Hand(program)
    xdotool("mousemove", *AT)
    wait_until(lambda: TOLD.match(hand.teller.name), "the pen's place")
    return hand


def moved(tap, hand):
    for button, name in ((2, "the middle button"), (1, "the space bar held")):
        before = hand.place(*AT)
        if button == 1:
            xdotool("keydown", "space")
            time.sleep(0.2)
        hand.drag(AT, (60, 40), button)
        if button == 1:
            xdotool("keyup", "space")
            time.sleep(0.2)
        after = hand.place(AT[0] + 60, AT[1] + 40)
        tap.ok(near(before, after), f"The sheet follows the pointer with {name}", before, after)
    tap.ok(TOLD.match(hand.teller.name)[1] == "0", "Nothing was drawn by that", hand.teller.name)
    for key, by, name in ((None, (0, -60), "up"), ("shift", (-60, 0), "aside with Shift")):
        before = hand.place(*AT)
        hand.wheel(1, key)
        after = hand.place(AT[0] + by[0], AT[1] + by[1])
        tap.ok(near(before, after), f"A click of the wheel moves the sheet {name}", before, after)
    before = hand.place(*AT)
    hand.program.key("ctrl+Left")
    time.sleep(0.3)
    after = hand.place(AT[0] + 80, AT[1])
    tap.ok(near(before, after), "Ctrl and an arrow key move the view", before, after)


def zoomed(tap, hand):
    hand.program.key("ctrl+0")
    time.sleep(0.5)
    before, zoom = hand.place(*AT), hand.zoom()
    hand.wheel(-3, "ctrl")
    wait_until(lambda: hand.zoom() != zoom, "another zoom")
    after = hand.place(*AT)
    tap.ok(near(before, after), "Ctrl and the wheel zoom about the pointer", before, after)
    tap.ok(abs(hand.zoom() - zoom * 1.2 ** 3) <= 2, "by a fifth for each click", zoom, hand.zoom())
    zoom = hand.zoom()
    hand.program.key("ctrl+minus")
    wait_until(lambda: hand.zoom() < zoom, "a smaller zoom")
    hand.program.key("ctrl+plus")
    wait_until(lambda: hand.zoom() == zoom, "the zoom as it was")
    tap.ok(True, "Keys zoom out and in again")


def turned(tap, hand):
    hand.program.key("ctrl+0")
    time.sleep(0.5)

    def direction():
        a, b = hand.place(*AT), hand.place(AT[0] + 100, AT[1])
        return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))

    hand.program.key(*["ctrl+bracketright"] * 3)
    time.sleep(0.5)
    spin = hand.program.find("View turned", "spin button")
    turn = spin.queryValue().currentValue
    tap.ok(turn > 0 and abs(direction() + turn) < 0.2, "Keys turn the view clockwise",
           turn, direction())
    hand.program.key("ctrl+u")
    time.sleep(0.5)
    tap.ok(abs(direction()) < 0.01, "and upright again", direction())


def by_hand(tap):
    """The view is moved, zoomed and turned"""
    program = Program(DOCUMENT)
    hand = start(program)
    moved(tap, hand)
    zoomed(tap, hand)
    turned(tap, hand)
    tap.equal(program.close(), 0, "Closed without a question: nothing was changed")


Tap().run(by_hand)
