#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""whole-job.py DEMO-FOLDER
The whole job in the real window: once with pointer and keyboard, once by keyboard alone.
PF_PINFOLD and PF_CLI tell where the programs are."""
import json
import os
import re
import subprocess
import sys
import time
from pathlib import Path

from driver import Program, Tap, children, extents, has_state, wait_until
import pyatspi

DEMO = Path(sys.argv[1]).resolve()
FOLDER = Path(os.environ["HOME"])
ARMURE = "Eight-thread armure"
STEPS = ("Outline", "Edge", "Ground", "Sewings", "Sheet")

# Roles of what a maker can work with.
CONTROLS = {"push button", "toggle button", "check box", "radio button", "text", "entry",
            "password text", "spin button", "combo box", "slider", "table cell", "list item",
            "table", "list", "tree table", "switch", "link"}


def first_start(tap):
    """The first start has a filled motif to try things on"""
    program = Program()
    counts = program.counts().name
    tap.ok(re.match(r"[1-9]\d* pairs, at most [1-9]\d* at once · [1-9]\d* stitches", counts),
           first_start.__doc__, counts)
    check_names(tap, program)
    tap.equal(program.close(), 0, "Closed without a question when nothing was done")


def controls(program):
    """How many there are, and those without a name."""
    seen, nameless = 0, []
    for node, _ in program.everything():
        if node.getRoleName() not in CONTROLS or not has_state(node, pyatspi.STATE_FOCUSABLE):
            continue
        seen += 1
        if not node.name.strip() or re.match(r"(Gtk|Pf)[A-Z]", node.name):
            nameless.append(f"{node.getRoleName()} “{node.name}” in “{node.parent.name}”"
                            f" at {extents(node)}")
    return seen, nameless


def check_names(tap, program):
    """All that can be worked with has a name of its own, in every step. A widget without one is
    told by its type, as in “GtkButton”."""
    for n, step in enumerate(STEPS):
        program.key(f"alt+{n + 1}")
        program.find(re.compile(step + ": .*"))
        time.sleep(0.5)
        seen, nameless = controls(program)
        tap.ok(seen > 12 and not nameless, f"{step}: every control has a name", seen, *nameless)


def check_outputs(tap, program, document, name, by_keyboard=False):
    """The report and the sheet, saved from the window, against the command line's and poppler."""
    report, again, pdf = (FOLDER / (name + end) for end in (".json", "-again.json", ".pdf"))
    if not by_keyboard:
        program.key("alt+5")
        program.press("Save the report…", "push button")
    program.choose_file("ctrl+shift+e" if by_keyboard else None, "Save the pair-count report",
                        report)
    wait_until(report.exists, "the report")
    subprocess.run([os.environ["PF_CLI"], "fill", document, "--report", again], check=True,
                   stdout=subprocess.DEVNULL)
    tap.ok(report.read_bytes() == again.read_bytes() and again.stat().st_size > 500,
           f"{name}: the window's report is the command line's, byte for byte")
    program.choose_file("ctrl+e", "Export the pages", pdf)
    wait_until(pdf.exists, "the sheet")
    program.find(re.compile("Written: .*"), "label")
    facts = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    pages = re.search(r"^Pages: +(.*)$", facts, re.M)[1]
    size = re.search(r"^Page size: .*\((.*)\)$", facts, re.M)[1]
    tap.ok((pages, size) == ("1", "A4"),
           f"{name}: the sheet is one page of A4", facts)


def words_of(pdf):
    return subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True, check=True).stdout


def check_book(tap, program, document):
    """The book with all its parts, saved from the window, against the command line's; and the
    steps."""
    book, again = FOLDER / "book.pdf", FOLDER / "book-again.pdf"
    steps, steps_again = FOLDER / "steps.txt", FOLDER / "steps-again.txt"
    for part in ("Working notes", "Worksheet", "Answers", "Pair-count report", "Pairs in colours"):
        program.press(part, "check box")
    pages = program.find(re.compile(r"Page 1 of ([6-9]|[1-9]\d)"), "label").name.split()[-1]
    program.key("ctrl+s")
    wait_until(lambda: not program.title().startswith("•"), "a title that says it is saved")
    page = json.loads(document.read_text())["page"]
    tap.ok(page["parts"] == ["pricking", "notes", "worksheet", "answers", "report"]
           and page["pair_colours"] is True, "The parts chosen, and colours, are in the document",
           page)
    program.choose_file("ctrl+e", "Export the pages", book)
    wait_until(book.exists, "the book")
    program.press("Save the working steps…", "push button")
    program.choose_file(None, "Save the working steps", steps)
    wait_until(steps.exists, "the steps")
    subprocess.run([os.environ["PF_CLI"], "fill", document, "--book", again, "--steps",
                    steps_again], check=True, stdout=subprocess.DEVNULL)
    facts = subprocess.run(["pdfinfo", book], capture_output=True, text=True, check=True).stdout
    tap.equal(re.search(r"^Pages: +(.*)$", facts, re.M)[1], pages, "The book is as the preview")
    words = words_of(book)
    tap.ok(words == words_of(again) and "Working notes" in words and "Worksheet" in words,
           "The book is the command line's, word for word")
    tap.ok(steps.read_bytes() == steps_again.read_bytes() and steps.stat().st_size > 2000,
           "The steps are the command line's, byte for byte")


def with_pointer(tap):
    """Import, choose, drag, override, undo, redo, save, reopen, export"""
    document = FOLDER / "leaf.pinfold"
    program = Program()
    program.choose_file("ctrl+i", "Import a drawing or scan", DEMO / "quince-leaf.svg")
    program.find(re.compile("Outline: (?!nothing).*"))
    tap.ok(True, "A drawing is imported through the file chooser")

    program.key("alt+3")
    program.click(ARMURE, "table cell")
    before = program.counts()
    chosen = before.name
    tap.ok(True, "A ground is chosen in the gallery by its name", chosen)
    program.roll_over("Gap", "spin button", 12)
    time.sleep(0.5)
    tap.equal(program.counts().name, chosen, "The wheel over the panel changes no number in it")
    canvas = program.find("Drawing", "panel")
    middle = program.place(canvas, canvas_window(program))
    program.drag(middle, (23, 17))
    dragged = program.wait_for_change(before, chosen, "other counts after the drag")
    moved = program.counts().name
    tap.ok(moved != chosen, "Dragging the ground gives other counts", chosen, moved)

    program.key("alt+4")
    program.press("Next", "push button")
    program.find(re.compile(r"Repeat -?\d+, -?\d+"), "label")
    program.press("Left out", "check box")
    program.wait_for_change(program.counts(), moved, "other counts without a repeat")
    without = program.counts().name
    tap.ok(without != moved, "Leaving a repeat out gives other counts", moved, without)
    program.key("ctrl+z")
    wait_until(lambda: program.counts().name == moved, "the counts as they were")
    tap.ok(True, "Undo brings the counts back")
    program.key("ctrl+shift+z")
    wait_until(lambda: program.counts().name == without, "the counts without the repeat")
    tap.ok(True, "Redo takes the repeat out again")

    program.choose_file("ctrl+shift+s", "Save the pricking", document)
    wait_until(document.exists, "the saved document")
    wait_until(lambda: not program.title().startswith("•"), "a title that says it is saved")
    tap.equal(program.close(), 0, "Saved, and closed without a question")

    program = Program(document)
    wait_until(lambda: program.counts().name == without, "the counts of the saved document")
    tap.ok(True, "Opened again by its name, with all choices in it")
    check_outputs(tap, program, document, "leaf")
    check_book(tap, program, document)
    tap.equal(program.close(), 0, "Closed without a question after exports")


def canvas_window(program):
    return next(iter(children(program.application())))


def tab_to_canvas(program):
    teller = program.teller()
    program.tab_to(teller)
    return teller


def walk_is_heard(tap, program):
    """Walks a few repeats, and listens."""
    teller = tab_to_canvas(program)
    heard = []
    for _ in range(8):
        before = teller.name
        program.key("n")
        program.wait_for_change(teller, before, "something new to hear")
        heard.append(teller.name)
    tap.ok(len(set(heard)) == len(heard) and all(len(words) > 15 for words in heard),
           "Every step of a walk on the canvas is heard", *heard)
    tap.ok(has_state(teller, pyatspi.STATE_FOCUSED), "The walk leaves the keyboard on the canvas")


def search_and_read(tap, program):
    """Searches for a ground, reads its page and those beside it, and comes back."""
    words = program.find("Find a ground by name or family", "entry")
    program.tab_to(words)
    program.type("ARMURE eight")
    wait_until(lambda: program.look_for(re.compile("1 of [0-9]+ grounds"), "label"), "one ground")
    program.key("Down", "space")
    program.wait_for_window("About this ground")
    described = re.compile(f"Drawing of {ARMURE}: |{ARMURE} close up: ")

    def pictures():
        return [node.name for node, _ in program.everything()
                if node.getRoleName() == "image" and described.match(node.description)]

    wait_until(lambda: pictures() == ["Drawing", "Threads"], "both pictures in words")
    seen, nameless = controls(program)
    tap.ok(seen > 12 and not nameless,
           "Search, Down and Space open a ground's page, where all has a name", seen, *nameless)
    program.key("Escape")
    program.wait_gone("About this ground")
    program.key("Up", "Escape")
    wait_until(lambda: program.look_for(re.compile("[0-9]+ grounds"), "label"), "all grounds")


def by_keyboard(tap):
    """The whole job by keyboard"""
    document = FOLDER / "by-keyboard.pinfold"
    program = Program()
    program.choose_file("ctrl+i", "Import a drawing or scan", DEMO / "quince-leaf.svg")
    program.find(re.compile("Outline: (?!nothing).*"))
    program.key("alt+3")
    search_and_read(tap, program)
    cell = program.find(ARMURE, "table cell")
    program.tab_to(cell)
    program.key("Right", "Left", "Return")
    counts = program.counts()
    tap.ok(True, "A ground is chosen with arrow keys and Return")

    teller = tab_to_canvas(program)
    place = re.compile(r".*its origin at (-?[\d.]+), (-?[\d.]+) mm")
    start = [float(x) for x in place.match(teller.name).groups()]
    program.key(*["shift+Right"] * 2, *["Right"] * 3, *["Down"] * 4)
    wanted = [round(start[0] + 2.3, 1), round(start[1] + 0.4, 1)]

    def told():
        return [float(x) for x in place.match(teller.name).groups()]

    wait_until(lambda: max(abs(a - b) for a, b in zip(told(), wanted)) < 0.11, f"origin {wanted}")
    tap.ok(True, "Arrow keys move the ground, and the canvas says where to")

    program.key("alt+4")
    walk_is_heard(tap, program)
    old = program.counts().name
    program.tab_to(program.find("As it comes", "check box"))
    program.key("Down", "Down", "Down", "space")
    program.wait_for_change(program.counts(), old, "other counts without a repeat")
    tap.ok(True, "A repeat is left out by keyboard")

    program.choose_file("ctrl+shift+s", "Save the pricking", document)
    wait_until(document.exists, "the saved document")
    check_outputs(tap, program, document, "by-keyboard", by_keyboard=True)
    tap.equal(program.close(), 0, "Closed by keyboard")


def broken_document(tap):
    """A document that can't be read any more offers the version before it"""
    document, before = FOLDER / "broken.pinfold", FOLDER / "broken.pinfold~"
    whole = (DEMO / "quince-leaf.pinfold").read_bytes()
    before.write_bytes(whole)
    document.write_bytes(whole[:len(whole) // 2])
    program = Program(document)
    program.find(re.compile(".*broken.pinfold, line .*"), "label")
    program.press("Open its last version", "push button")
    program.find(re.compile(r"[1-9]\d* pairs, .*"), "label")
    wait_until(lambda: program.title().startswith("•"), "a title that says it isn't saved")
    program.key("ctrl+s")
    wait_until(lambda: not program.title().startswith("•"), "a title that says it is saved")
    tap.ok(document.read_bytes() == whole, broken_document.__doc__)
    tap.equal(program.close(), 0, "Closed after it was saved in the broken file's place")


Tap().run(first_start, with_pointer, by_keyboard, broken_document)
