#!/usr/bin/env python3
"""How far two codings of the same pieces agree.

    agreement.py FIRST.csv SECOND.csv

Both files have the columns of museum.csv; pieces are matched by `case_id`, and only the pieces of SECOND count.

A cell counts when both coders filled it: equal when they named the same finding, `?` and `??` aside. Cells that
only one of them filled are counted apart, since an empty cell says that the record is silent.

Cohen's kappa (1960) is (P_o - P_e) / (1 - P_e), P_o the share of equal cells and P_e the share expected if each
coder drew findings at his own rates. Pooled over clues, P_e is taken within each clue and averaged by its cells:
with one pool of all findings it would be near 0 and kappa would flatter. It is given twice: over the findings of
the cells both filled, and over all cells with `silent` as one more finding.
"""

import collections
import csv
import sys

NOT_FINDINGS = {"case_id", "museum", "object_number", "url", "from", "to", "kind", "place", "setting", "mark"}


def read(path):
    with open(path, newline="", encoding="utf-8") as file:
        return {row["case_id"]: row for row in csv.DictReader(file)}


def kappa(by_clue):
    """`by_clue`: for each clue the pairs of answers."""
    cells = equal = expected = 0
    for pairs in by_clue.values():
        one = collections.Counter(a for a, _ in pairs)
        two = collections.Counter(b for _, b in pairs)
        cells += len(pairs)
        equal += sum(a == b for a, b in pairs)
        expected += sum(n * two[answer] for answer, n in one.items()) / len(pairs)
    return (equal - expected) / (cells - expected)


def main(first, second):
    first, second = read(first), read(second)
    clues = [c for c in next(iter(second.values())) if c not in NOT_FINDINGS]
    both, every = collections.defaultdict(list), collections.defaultdict(list)
    sure = collections.Counter()
    only = collections.Counter()
    for case, row in second.items():
        for clue in clues:
            cells = (first[case][clue], row[clue])
            a, b = (cell.rstrip("?") for cell in cells)
            every[clue].append((a or "silent", b or "silent"))
            if a and b:
                both[clue].append((a, b))
                sure[cells[0].count("?") == cells[1].count("?")] += a == b
            elif a or b:
                only[clue, "first" if a else "second"] += 1
    print("| clue | equal / both filled | first only | second only |\n|---|---|---|---|")
    for clue in clues:
        pairs, one, two = both.get(clue, []), only[clue, "first"], only[clue, "second"]
        if pairs or one or two:
            print(f"| {clue} | {sum(a == b for a, b in pairs)} / {len(pairs)} | {one or ''} | {two or ''} |")
    pairs = [pair for clue in both.values() for pair in clue]
    equal, firsts = sum(a == b for a, b in pairs), sum(n for (_, who), n in only.items() if who == "first")
    seconds = sum(only.values()) - firsts
    print(f"| all | {equal} / {len(pairs)} = {equal / len(pairs):.0%} | {firsts} | {seconds} |\n")
    print(f"{len(second)} pieces; of the equal cells {sure[True]} of {equal} are equally sure")
    print(f"kappa {kappa(both):.2f} over cells both filled; {kappa(every):.2f} with silence as a finding")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
