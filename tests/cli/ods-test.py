#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""ods-test.py CLI DEMO-FOLDER
The report as a spreadsheet, read back by odfpy: the first bytes of the package, the names of its
sheets, and every figure of the sewings against the report as JSON."""
import json
import os
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from odf import meta, table, teletype
from odf.opendocument import load

CLI, DEMO = sys.argv[1], Path(sys.argv[2])
failed = 0
number = 0


def ok(good, what, *details):
    global failed, number
    number += 1
    print("ok" if good else "not ok", number, what)
    failed += not good
    for detail in () if good else details:
        print("#", detail)


def value(cell):
    text = teletype.extractText(cell)
    return float(cell.getAttribute("value")) if cell.getAttribute("valuetype") == "float" else text


def read_sheets(path):
    return {sheet.getAttribute("name"): [[value(cell) for cell in row.getElementsByType(table.TableCell)]
                                         for row in sheet.getElementsByType(table.TableRow)]
            for sheet in load(path).spreadsheet.getElementsByType(table.Table)}


def fill(folder, outline, *options):
    ods, report = folder / "report.ods", folder / "report.json"
    subprocess.run([CLI, "fill", "--outline", outline, "--ground", "armure", "--gap", "5", "--beads",
                    "whole", *options, "--report", ods, "--report", report],
                   check=True, capture_output=True)
    return ods, json.loads(report.read_text())


def check_package(path):
    """OpenDocument 1.2, part 3: 3.3 (the first file, and where its bytes stand), 3.2 (manifest)."""
    start = path.read_bytes()[:100]
    wanted = b"mimetypeapplication/vnd.oasis.opendocument.spreadsheet"
    ok(start[:4] == b"PK\3\4" and start[30:30 + len(wanted)] == wanted,
       "The package tells its kind by its first bytes", start)
    package = zipfile.ZipFile(path)
    ok(package.testzip() is None and package.infolist()[0].compress_type == zipfile.ZIP_STORED,
       "Every file of the package is whole")
    manifest = package.read("META-INF/manifest.xml").decode()
    unlisted = [name for name in package.namelist()
                if name not in ("mimetype", "META-INF/manifest.xml") and f'"{name}"' not in manifest]
    ok(not unlisted, "The manifest lists every file", *unlisted)


def check_sewings(sheets, report):
    rows = 0
    for n, motif in enumerate(report["motifs"]):
        roman = ("I", "II", "III", "IV", "V", "VI")[n] + " " if len(report["motifs"]) > 1 else ""
        name = next(s for s in sheets if s.startswith(roman + "Sewings, in the order"))
        table_rows = [row for row in sheets[name] if len(row) == 9 and isinstance(row[0], float)]
        for row, sewing in zip(table_rows, motif["sewn"], strict=True):
            number, pair, kind, place, x, y, angle = row[:7]
            good = ((number, pair, kind) == (sewing["number"], sewing["pair"], sewing["kind"])
                    and abs(x - sewing["at"][0]) < 0.0501 and abs(y - sewing["at"][1]) < 0.0501
                    and abs(angle - sewing["angle"]) < 0.501)
            if not good:
                ok(False, f"{name}: sewing {sewing['number']}", row, sewing)
            rows += 1
    ok(rows == report["sewings"]["total"] and rows > 20, f"All {rows} sewings, as in the JSON")


def check_counts(sheets, report, names):
    counts = {row[0]: row[1] for row in sheets["Counts" if len(report["motifs"]) == 1 else "I Counts"]
              if len(row) == 2}
    motif = report["motifs"][0]
    for words, wanted in ((names[0], motif["stitches"]), (names[1], motif["pins"]),
                          (names[2], motif["beads"])):
        ok(counts.get(words) == wanted, f"{words}: {wanted}", counts)


with tempfile.TemporaryDirectory() as name:
    folder = Path(name)
    for outline in ("runner-end.svg", "quince-leaf.svg"):
        ods, report = fill(folder, DEMO / outline)
        check_package(ods)
        sheets = read_sheets(ods)
        ok(len(sheets) > 5 and all(0 < len(s) <= 31 and not set(s) & set("[]*?:/\\'") for s in sheets),
           "Sheets have names that every program takes", *sheets)
        check_sewings(sheets, report)
        check_counts(sheets, report, ("Stitches", "Pins", "Beads"))
    odd = folder / "a \x01 <&> “%s”.svg"
    odd.write_bytes((DEMO / "quince-leaf.svg").read_bytes())
    os.environ["SOURCE_DATE_EPOCH"] = "1700000000"
    ods, report = fill(folder, odd)
    facts = load(ods).meta
    title = teletype.extractText(facts.childNodes[[c.qname[1] for c in facts.childNodes].index("title")])
    ok("a   <&> “%s”" in title, "A title with odd letters is read back", title)
    date = teletype.extractText(facts.getElementsByType(meta.CreationDate)[0])
    ok(date == "2023-11-14T22:13:20Z", "The date is SOURCE_DATE_EPOCH's", date)
    print(f"1..{number}")
sys.exit(failed > 0)
