#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""drop-test.py DEMO-FOLDER
Files dragged into the real window with the pointer, out of another program's.
PF_PINFOLD and PF_SOURCE tell where the programs are."""
import os
import re
import shutil
import struct
import subprocess
import sys
import time
import zlib
from pathlib import Path

from driver import Program, Tap, wait_until, xdotool

DEMO = Path(sys.argv[1]).resolve()
FOLDER = Path(os.environ["HOME"])
TARGET = (500, 400)  # on the canvas


def write_scan(path):
    """A white PNG of 200 by 100 pixels (W3C, PNG Specification, second edition, 5)."""
    def chunk(kind, data):
        return (struct.pack(">I", len(data)) + kind + data +
                struct.pack(">I", zlib.crc32(kind + data)))

    path.write_bytes(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 200, 100, 8, 0,
                                                                      0, 0, 0)) +
                     chunk(b"IDAT", zlib.compress(b"".join(b"\0" + b"\xff" * 200
                                                           for _ in range(100)))) +
                     chunk(b"IEND", b""))


def drop(program, *files):
    """Drags files out of a small window beside onto the canvas."""
    source = subprocess.Popen([os.environ["PF_SOURCE"], *map(str, files)])
    try:
        window = program.wait_for_window("Files to drag")
        xdotool("windowmove", "--sync", window, 1120, 780)
        start = (1180, 820)
        time.sleep(0.5)
        xdotool("mousemove", *start)
        time.sleep(0.1)
        xdotool("mousedown", 1)
        for m in range(1, 21):
            xdotool("mousemove", *(a + (b - a) * m // 20 for a, b in zip(start, TARGET)))
            time.sleep(0.03)
        time.sleep(0.3)
        xdotool("mouseup", 1)
        time.sleep(0.5)
    finally:
        source.kill()
        source.wait()
    xdotool("windowactivate", "--sync", program.window_id)


def dropped(tap):
    """A drawing, a scan and a document are each taken for what they are"""
    scan, notes = FOLDER / "scan.png", FOLDER / "notes.txt"
    document = FOLDER / "another.pinfold"
    write_scan(scan)
    notes.write_text("Not a drawing.\n")
    shutil.copy(DEMO / "quince-leaf.pinfold", document)
    program = Program()
    program.counts()
    drop(program, DEMO / "quince-leaf.svg")
    program.find(re.compile("Outline: 2 motifs"))
    tap.ok(True, "A drawing that is dropped is imported")
    drop(program, scan)
    program.find(re.compile("The scan lies under the drawing.*"), "label")
    tap.ok(True, "A scan that is dropped lies under the drawing")
    drop(program, notes)
    said = program.find(re.compile(".*notes.txt” can.t be opened.*"), "label").name
    tap.ok(".pinfold" in said, "What can't be opened is said, and what can", said)
    drop(program, notes, DEMO / "quince-leaf.svg")
    program.find(re.compile("Outline: 3 motifs"))
    said = program.find(re.compile(".*notes.txt” can.t be opened.*"), "label").name
    tap.ok(True, "Of several files each is opened, and the error is still there", said)
    drop(program, document)
    wait_until(lambda: len(program.windows("Pinfold$")) == 2, "a second window")
    program.find(re.compile("another.pinfold.*"), "label")
    tap.ok("•" in program.title(), "A document opens in a window of its own, beside unsaved work",
           program.title())
    program.kill()


Tap().run(dropped)
