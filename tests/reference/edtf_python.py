"""EDTF texts read by the Python package `edtf`, a parser that shares nothing with ours.

Run:  pip install edtf && python edtf_python.py PROGRAM > edtf_python.csv

Reads tests/data/edtf_cases.csv, and what PROGRAM (a built printseam) prints for the sightings in
tests/data/sightings and a few findings more. `read` is what the parser made of a text, `agrees`
whether that is what was meant. Only its strict bounds are used: its fuzzy ones add slack for ~ and
?, a choice of that library which EDTF does not state.
"""
import csv
import json
import math
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

from edtf import EDTFParseException, parse_edtf

TESTS = Path(__file__).resolve().parent.parent
MORE = [["--saw", "potted-year=1936"], ["--saw", "registered=1864"], ["--saw", "printed-year=1976"],
        ["--mark", "MADE IN JAPAN"], []]


def year(bound):
    """A strict bound as a year; empty where the interval is open."""
    return "" if bound in (math.inf, -math.inf) else bound.tm_year


def read(text):
    try:
        date = parse_edtf(text)
    except EDTFParseException:
        return {"read": "refused"}
    ends = [date.lower, date.upper] if type(date).__name__.endswith("Interval") else [date]
    return {"read": type(date).__name__, "earliest": year(date.lower_strict()), "latest": year(date.upper_strict()),
            "approximate": " ".join("yes" if getattr(e, "is_approximate", False) else "no" for e in ends)}


def cases():
    lines = (TESTS / "data/edtf_cases.csv").read_text().splitlines()
    for row in csv.DictReader(line for line in lines if not line.startswith("#")):
        got = read(row["text"])
        if row["valid"] == "no":
            agrees = got["read"] == "refused"
        else:
            agrees = [str(got.get(k)) for k in ("earliest", "latest")] == [row["earliest"], row["latest"]]
        yield {"from": "edtf_cases", "text": row["text"], **got, "agrees": agrees}


def printed(program):
    """Every band that the program prints: (text, from, to)."""
    asked = [[str(p)] for p in sorted((TESTS / "data/sightings").glob("*.ron"))] + MORE
    found = set()
    for arguments in asked:
        out = subprocess.run([program, "judge", *arguments, "--json"], capture_output=True, text=True, check=True)
        found |= {(b["edtf"], b["from"], b["to"]) for b in json.loads(out.stdout)["bands"]}
    for text, earliest, latest in sorted(found, key=lambda b: b[1:]):
        got = read(text)
        ends = 1 if earliest == latest else 2
        agrees = (got.get("earliest"), got.get("latest")) == (earliest, latest)
        agrees &= got.get("approximate") == " ".join(["yes"] * ends)
        yield {"from": "printseam judge", "text": text, **got, "agrees": agrees}


rows = [*cases(), *printed(sys.argv[1])]
print(f"# Read by Python edtf {version('edtf')}; see README.md. approximate: one word for each end.")
out = csv.DictWriter(sys.stdout, ["from", "text", "read", "earliest", "latest", "approximate", "agrees"],
                     lineterminator="\n")
out.writeheader()
out.writerows({**r, "agrees": "yes" if r["agrees"] else "no"} for r in rows)
