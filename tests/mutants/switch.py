#!/usr/bin/env python3
"""Builds a seeded sample of mutants into one copy of the program, as switches.

    python3 tests/mutants/switch.py COPY [--seed 2026] [--sample 200]

COPY is a scratch copy of this repository, never this one: its src/ is written from the one here. A function with
mutants becomes

    fn f(..) -> T { match crate::mutants::chosen(0) { 17 => {changed body} 23 => {changed body} _ => {body} } }

and `chosen` reads the number once from the variable MUTANT. All there are are numbered by file and place and put in an
order by the seed; the sample is the first of them that compile. For that the tests of the copy are built until nothing
is refused any more. COPY/mutants.json lists what was built.

Not changed: constants, statics and `const fn` (they are not worked out at run time), functions that return
`impl Trait` (their bodies would be of different types), unit tests, assertions, capacities.
"""

import argparse
import json
import random
import re
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parents[2]

# Area: where its source lies.
AREAS = {
    "core": "src/core",
    "marks": "src/hearing",
    "claims": "src/claim",
    "reports": "src/report",
    "buying": "src/buy",
}

# All mutants of these are built, whatever the sample holds.
IN_FULL = ["src/core/interval.rs", "src/core/posterior.rs", "src/core/likelihood.rs", "src/core/table.rs",
           "src/core/predictive.rs"]

SWAPS = {
    "<": "<=", "<=": "<", ">": ">=", ">=": ">", "+": "-", "-": "+", "*": "/", "/": "*", "%": "/",
    "&&": "||", "||": "&&", "==": "!=", "!=": "==", "+=": "-=", "-=": "+=", "*=": "/=", "/=": "*=",
}

OPERATOR = re.compile(r"(?<=\s)(<=|>=|==|!=|&&|\|\||\+=|-=|\*=|/=|[-<>+*/%])(?=\s)")
NOT = re.compile(r"(?<![\w!=])!(?=[\w(*&])(?!=)")
NUMBER = re.compile(r"(?<![\w.])\d[\d_]*(?:\.\d[\d_]*)?(?:e-?\d+)?(?![\w])(?!\.\d)")
ENDS = re.compile(r"\.(min|max)\(|\b(f64)::(min|max)\b")
SPARED = re.compile(r"\b(?:debug_)?assert(?:_eq|_ne)?!|with_capacity|#\[")
FUNCTION = re.compile(r"\bfn\s+(\w+)")

# Bodies that only give back a value, by the return type.
RETURNS = [
    (r"bool", ["true", "false"]),
    (r"f64", ["0.0", "1.0"]),
    (r"(?:[iu](?:8|16|32|64)|usize)", ["0", "1"]),
    (r"Option<.*>", ["None"]),
    (r"Vec<.*>", ["Vec::new()"]),
    (r"String", ["String::new()"]),
    (r"", [""]),
]


def blanked(text):
    """The text with comments, strings and characters as blanks of the same length."""
    pattern = re.compile(
        r"//[^\n]*|/\*.*?\*/|b?r(#*)\".*?\"\1|b?\"(?:\\.|[^\"\\])*\"|b?'(?:\\[^']+|[^'\\])'", re.S
    )
    return pattern.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)


def closing(code, at):
    """The place after the brace that closes the one at `at`."""
    depth = 0
    for i in range(at, len(code)):
        depth += {"{": 1, "}": -1}.get(code[i], 0)
        if depth == 0:
            return i + 1
    raise ValueError("brace not closed")


def functions(code):
    """(start of body, end of body, name, return type) of each outermost function outside unit tests."""
    tests = re.search(r"#\[cfg\(test\)\]\s*mod\b", code)
    end = tests.start() if tests else len(code)
    at = 0
    while found := FUNCTION.search(code, at, end):
        at = found.end()
        depth, angle, given = 0, 0, None
        for i in range(at, end):  # the body's brace, or the semicolon of a signature in a trait
            depth += {"(": 1, "[": 1, ")": -1, "]": -1}.get(code[i], 0)
            angle += {"<": 1, ">": -(code[i - 1] != "-")}.get(code[i], 0)
            if depth == 0 and angle == 0 and code[i] == ")":
                given = given or i + 1  # after the arguments
            if depth == 0 and code[i] in "{;":
                break
        if code[i] == ";" or "const fn" in code[found.start() - 6 : found.end()]:
            continue
        body_end = closing(code, i)
        gives = re.split(r"\bwhere\b", code[given:i])[0].strip().removeprefix("->").strip()
        at = body_end
        if "impl " not in gives:
            yield i, body_end, found.group(1), gives


def changes(code, start, end, gives):
    """(from, to, new text) of each change within a body."""
    found = []
    body = code[start:end]
    spared = [(m.start(), body.find("\n", m.start())) for m in SPARED.finditer(body)]

    def change(first, last, new):
        if not any(a <= first < b for a, b in spared):
            found.append((start + first, start + last, new))

    for m in OPERATOR.finditer(body):
        before = body[: m.start()].rstrip()[-1:]
        closure = m.group() == "||" and before in "=(,{"
        if not closure and before not in "=(,{" and "dyn " not in body[m.start() - 30 : m.start()]:
            change(m.start(), m.end(), SWAPS[m.group()])
    for m in NOT.finditer(body):
        change(m.start(), m.end(), "")
    for m in NUMBER.finditer(body):
        text = m.group().replace("_", "")
        if "." in text or "e" in text:
            new = repr(2 * float(text) or 1.0)
        else:
            new = str(int(text) + 1)
        change(m.start(), m.end(), new)
    for m in ENDS.finditer(body):
        place = 1 if m.group(1) else 3
        change(m.start(place), m.end(place), {"min": "max", "max": "min"}[m.group(place)])
    found.sort()
    for pattern, values in RETURNS:
        if re.fullmatch(pattern, gives, re.S):
            found += [(start, end, "{ %s }" % v) for v in values if body.strip("{} \n") != v]
            break
    return found


def all_mutants(root):
    """Every mutant there is, in the order of files and places; its number is its place in the list."""
    out = []
    for area, folder in AREAS.items():
        for path in sorted((root / folder).rglob("*.rs")):
            text = path.read_text()
            code = blanked(text)
            for start, end, name, gives in functions(code):
                for first, last, new in changes(code, start, end, gives):
                    out.append({
                        "number": len(out) + 1, "area": area, "file": str(path.relative_to(root)),
                        "line": text.count("\n", 0, first) + 1, "function": name, "body": [start, end],
                        "at": [first, last], "new": new,
                        "old": "the body" if (first, last) == (start, end) else text[first:last],
                    })
    return out


def chosen(mutants, order, sample):
    """The first of the order, and all of the files in full."""
    alive = {m["number"] for m in mutants}
    drawn = [n for n in order if n in alive][:sample]
    for m in mutants:
        m["drawn"], m["full"] = m["number"] in drawn, m["file"] in IN_FULL
        m["order"] = order.index(m["number"])
    return [m for m in mutants if m["drawn"] or m["full"]]


def build(root, originals, mutants):
    """Writes the switched sources; gives (first line, last line) of each mutant's body by file."""
    lines = {}
    for file, text in originals.items():
        of_file = [m for m in mutants if m["file"] == file]
        bodies = sorted({tuple(m["body"]) for m in of_file})
        out, at = [], 0
        for start, end in bodies:
            arms = [m for m in of_file if tuple(m["body"]) == (start, end)]
            out.append(text[at:start] + "{ match crate::mutants::chosen(%d) {\n" % arms[0]["number"])
            for m in arms:
                first, last = m["at"]
                first_line = "".join(out).count("\n") + 1
                out.append("%d => %s\n" % (m["number"], text[start:first] + m["new"] + text[last:end]))
                lines.setdefault(file, []).append((first_line, "".join(out).count("\n"), m["number"]))
            out.append("_ => %s\n} }" % text[start:end])
            at = end
        out.append(text[at:])
        write(root / file, "".join(out))
    return lines


def write(path, text):
    """Leaves the file alone where nothing changes, so that nothing is built again."""
    if not path.exists() or path.read_text() != text:
        path.write_text(text)


CHOOSER = '''//! Which mutant runs, by the variable MUTANT. REACHED names a file for the first mutant of each function entered.
use std::io::Write;
use std::sync::{LazyLock, Mutex};

static NUMBER: LazyLock<u32> = LazyLock::new(|| std::env::var("MUTANT").ok().and_then(|n| n.parse().ok()).unwrap_or(0));
static REACHED: LazyLock<Option<Mutex<(std::collections::BTreeSet<u32>, std::fs::File)>>> = LazyLock::new(|| {
    let path = std::env::var("REACHED").ok()?;
    let file = std::fs::OpenOptions::new().create(true).append(true).open(path).ok()?;
    Some(Mutex::new((Default::default(), file)))
});

pub fn chosen(function: u32) -> u32 {
    if let Some(reached) = &*REACHED {
        let mut reached = reached.lock().unwrap_or_else(|e| e.into_inner());
        if reached.0.insert(function) {
            let _ = writeln!(reached.1, "{function}");
        }
    }
    *NUMBER
}
'''


def refused(root, lines):
    """Numbers of the mutants in whose bodies the compiler finds an error."""
    command = ["cargo", "test", "--offline", "--no-run", "--test", "it", "--message-format", "json"]
    said = subprocess.run(command, cwd=root, capture_output=True, text=True).stdout
    bad, elsewhere = set(), []
    for line in said.splitlines():
        message = json.loads(line).get("message") or {}
        if message.get("level") != "error":
            continue
        spans = [s for s in message["spans"] if s["is_primary"]] or message["spans"]
        hit = {n for s in spans for a, b, n in lines.get(s["file_name"], []) if a <= s["line_start"] <= b}
        bad |= hit
        if not hit and spans:
            elsewhere.append(message["rendered"])
    if not bad and elsewhere:
        sys.exit("\n".join(elsewhere[:3]))
    return bad


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("copy", type=Path)
    arguments.add_argument("--seed", type=int, default=2026)
    arguments.add_argument("--sample", type=int, default=200)
    arguments.add_argument("--files", default="", help="draw from these only, and take none in full")
    given = arguments.parse_args()
    every = all_mutants(HERE)
    if given.files:
        IN_FULL.clear()
        every = [m for m in every if m["file"] in given.files.split(",")]
    order = random.Random(given.seed).sample([m["number"] for m in every], len(every))
    originals = {f: (HERE / f).read_text() for f in {m["file"] for m in every}}
    write(given.copy / "src/mutants.rs", CHOOSER)
    write(given.copy / "src/lib.rs", (HERE / "src/lib.rs").read_text() + "\npub mod mutants;\n")
    left, dropped = every, []
    # A third more than wanted, so that there are enough when some do not compile.
    while True:
        mutants = chosen(left, order, given.sample * 4 // 3)
        bad = refused(given.copy, build(given.copy, originals, mutants))
        if not bad:
            break
        dropped += [m for m in mutants if m["number"] in bad]
        left = [m for m in left if m["number"] not in bad]
        print(len(bad), "do not compile", flush=True)
    for m in mutants:
        m["switch"] = next(o["number"] for o in mutants if (o["file"], o["body"]) == (m["file"], m["body"]))
    wanted = {m["number"] for m in chosen(left, order, given.sample)}
    mutants = [m for m in mutants if m["number"] in wanted]
    (given.copy / "mutants.json").write_text(json.dumps(mutants, indent=1))
    print(f"{len(every)} mutants; {len(dropped)} tried do not compile; {len(mutants)} built:")
    for area in AREAS:
        drawn = [m for m in mutants if m["area"] == area and m["drawn"]]
        print(f"  {area}: {sum(m['area'] == area for m in every)}, drawn {len(drawn)}")
    full = [m for m in mutants if m["full"]]
    print(f"  in full: {len(full)}, of them drawn {sum(m['drawn'] for m in full)}")


if __name__ == "__main__":
    main()
