#!/usr/bin/env python3
"""Code catalogue records blind: split them, then join what was coded from the sheet alone.

    blind.py split RECORDS.csv SHEET.txt KEY.csv   the sheet for the coder, the key put away
    blind.py again SHEET.txt N                     N records of the sheet, evenly spread, to be coded a second time
    blind.py kinds KEY.csv                         what says the kind, after the findings are done
    blind.py join FINDINGS.csv KEY.csv KINDS.csv MUSEUM.csv OUT.csv
    blind.py more FINDINGS.csv KEY.csv MUSEUM.csv  findings of clues that MUSEUM.csv lacks, as new columns at its end

The sheet numbers the records and shows what somebody holding the piece would see or measure: form, size,
colours, body, subject, border, the mark as it stands. Left out: dates, country, museum, object number, address
and the cataloguer's field for the technique. Within the text that is shown,

- years are masked. One written on the piece (in the mark, or in the record's words for it) becomes `[y1]`,
  `[y2]` ..., numbered within the record; the coder may write `y1` into a cell for a year, and `join` puts the
  year back. So the coder says which year stands where without seeing it.
- decades, centuries and reigns used as adjectives become `[period]`.
- words that name the process of decoration become `[process]` where the technique field names the same
  process; otherwise the technique could be read back from the description. Gilding is not masked: it says
  nothing of the kind.

The mark itself is shown unmasked but for years, since whoever holds the piece reads it too.

FINDINGS has `row` and any columns of MUSEUM.csv that hold findings; KINDS has `case_id,kind`. `join` writes the
columns of MUSEUM.csv, in its order, so both files read alike. `more` is for clues that came later: it touches no
cell that is there, and records that the file left out stay out.
"""

import csv
import re
import sys

SHOWN = [
    "colours", "ground_or_body", "form", "subject_or_motif", "border", "colour_added_by_hand", "blurred_blue",
    "over_or_under_glaze", "mark_text", "mark_kind", "registration_mark", "other_observations",
]
# Read off the piece as it is, so process words in them are findings and stay.
ON_THE_PIECE = ["mark_text", "mark_kind", "registration_mark"]
SAYS_THE_KIND = ["technique", "colours", "colour_added_by_hand", "over_or_under_glaze", "form"]

YEAR = re.compile(r"(?<![\d.,])1[5-9]\d\d(?![\d.,]\d|\d)|(?<![\d.,])20[0-2]\d(?![\d.,]\d|\d)")
PERIOD = re.compile(
    r"\b(?:early|mid|late)?[- ]?(?:1[5-9]|20)\d0'?s\b"
    r"|\b(?:early|mid|late)?[- ]?\d\d(?:st|nd|rd|th)?[- ](?:century|cent\.?|c\.)"
    r"|\b(?:eighteenth|nineteenth|twentieth)[- ]century"
    r"|\b(?:georgian|regency|victorian|edwardian|inter-?war|post-?war|pre-?war|mid-century)\b",
    re.IGNORECASE,
)
# One pattern for each process: if the technique field has it, it is masked in the description.
PROCESSES = [
    r"\w*-?print\w*|\w*transfer\w*|\w*engrav\w*|\bimprim\w*|\bestamp\w*|\b\w*druck\w*",
    r"\w*litho\w*|\w*decal\w*|\bphotographic\w*",
    r"\w*-?paint\w*|\bbrush\w*|\bpeint\w*|\w*gemalt\w*|\bmaler\w*",
    r"\w*enamel\w*",
    r"\w*stencil\w*",
    r"\w*air-?brush\w*|\w*spray\w*|\w*spritz\w*",
    r"\w*spong\w*|\w*spatter\w*|\w*stamp\w*",
    r"\w*lustr\w*|\w*luster\w*",
    r"\bflow(?!er)\w*",
    r"\w*screen\w*",
    r"\bslip\w*",
]
PLACES = {
    "": "", "England": "britain", "Scotland": "britain", "Scotland (United Kingdom)": "britain", "Wales": "britain",
    "Ireland": "britain", "Germany": "germany", "France": "france", "Netherlands": "low-countries",
    "Belgium": "low-countries", "Denmark": "scandinavia", "Norway": "scandinavia", "Sweden": "scandinavia",
    "Finland": "scandinavia", "United States": "usa", "Japan": "japan", "China": "china", "Australia": "elsewhere",
    "Italy": "elsewhere", "Portugal": "elsewhere", "Spain": "elsewhere", "Russia": "elsewhere",
    "USA": "usa", "Britain": "britain", "South Tyrol": "elsewhere", "New Zealand": "elsewhere",
    "Czechoslovakia": "elsewhere",
}


def mask(record):
    """The fields to show, masked, and the years in the order of their tokens."""
    years, shown = [], {}

    def token(found):
        year = found.group(0)
        if year not in years:
            years.append(year)
        return f"[y{years.index(year) + 1}]"

    named = [re.compile(p, re.IGNORECASE) for p in PROCESSES if re.search(p, record["technique"], re.IGNORECASE)]
    for field in SHOWN:
        text = PERIOD.sub("[period]", record[field].strip())
        text = YEAR.sub(token, text)
        if field not in ON_THE_PIECE:
            for process in named:
                text = process.sub("[process]", text)
        if text:
            shown[field] = text
    return shown, years


def read(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def write(path, columns, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, columns, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def split(records, sheet, key):
    keys = []
    with open(sheet, "w", encoding="utf-8") as out:
        for number, record in enumerate(read(records), 1):
            shown, years = mask(record)
            out.write(f"== {number}\n")
            for field, text in shown.items():
                out.write(f"   {field}: {text}\n")
            keys.append({
                "row": number, "case_id": record["case_id"], "museum": record["museum"],
                "object_number": record["object_number"], "url": record["url"], "from": record["date_from"],
                "to": record["date_to"], "place": PLACES[record["country"]], "years": " ".join(years),
                **{field: record[field] for field in SAYS_THE_KIND},
            })
    write(key, list(keys[0]), keys)


def again(sheet, number):
    """Record 1 + floor(i * records / N) for i from 0 to N - 1."""
    with open(sheet, encoding="utf-8") as file:
        records = file.read().split("== ")[1:]
    for i in range(int(number)):
        print("== " + records[i * len(records) // int(number)], end="")


def show_kinds(key):
    for record in read(key):
        told = "; ".join(f"{field}: {record[field]}" for field in SAYS_THE_KIND if record[field])
        if record["technique"]:
            print(record["case_id"], "|", told)


def put_back(record, column, value):
    """The cell with its years instead of their tokens."""
    years = record["years"].split()
    token = r"\[y(\d)\]" if column == "mark" else r"^y(\d)"
    return re.sub(token, lambda found: years[int(found.group(1)) - 1], value)


def join(findings, key, kinds, museum, out):
    with open(museum, newline="", encoding="utf-8") as file:
        columns = next(csv.reader(file))
    keys = {record["row"]: record for record in read(key)}
    kind = {row["case_id"]: row["kind"] for row in read(kinds)} if kinds != "-" else {}
    rows = []
    for coded in read(findings):
        record = keys[coded.pop("row")]
        row = {column: "" for column in columns}
        row.update({c: record[c] for c in ["case_id", "museum", "object_number", "url", "from", "to", "place"]})
        row.update(kind=kind.get(record["case_id"], ""), setting="museum-drawer")
        for column, value in coded.items():
            if column not in row:
                sys.exit(f"row {record['row']}: no column '{column}'")
            row[column] = put_back(record, column, value)
        rows.append(row)
    write(out, columns, rows)


def more(findings, key, museum):
    rows, coded = read(museum), read(findings)
    new = [column for column in coded[0] if column != "row"]
    if twice := [column for column in new if column in rows[0]]:
        sys.exit(f"{museum} has these columns already: {' '.join(twice)}")
    keys = {record["row"]: record for record in read(key)}
    found = {keys[cells["row"]]["case_id"]: (keys[cells["row"]], cells) for cells in coded}
    for row in rows:
        record, cells = found[row["case_id"]]
        row.update({column: put_back(record, column, cells[column]) for column in new})
    write(museum, list(rows[0]), rows)


if __name__ == "__main__":
    steps = {"split": (split, 3), "again": (again, 2), "kinds": (show_kinds, 1), "join": (join, 5), "more": (more, 3)}
    if len(sys.argv) < 2 or sys.argv[1] not in steps or len(sys.argv) - 2 != steps[sys.argv[1]][1]:
        sys.exit(__doc__)
    steps[sys.argv[1]][0](*sys.argv[2:])
