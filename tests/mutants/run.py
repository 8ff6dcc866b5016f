#!/usr/bin/env python3
"""Runs the tests of its area for each mutant that `switch.py` built, and says which live.

    python3 tests/mutants/run.py COPY [--minutes 35] [--only 12,40] > lived.txt

A mutant is noticed when a test fails, dies of its own fault or takes far longer than without it; one whose run somebody
else ended, by a kill or Ctrl-C, is not counted and runs again next time. Modules run from the quickest on and stop at
the first that fails; one that never enters the mutant's function, as a run without mutants tells, is left out. The
sample comes first in its drawn order, then the rest of the files in full. COPY/results.json is written after each
mutant, and what stands in it is not run again unless `--only` names it. COPY/baseline.json, what the modules take and
enter, is made once; remove it when tests change.
"""

import argparse
import json
import os
import resource
import shutil
import signal
import subprocess
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

# Modules of tests/it by area; "lib NAME" are unit tests.
MODULES = {
    "core": ["lib core::", "core_values", "laws", "oracle", "oracle_looks", "bulk", "reference", "report_values",
             "rarity", "plain", "scales", "scenarios", "reports", "claim_values", "lot", "drawn", "drills"],
    "marks": ["lib hearing::", "marks_youngest", "matching", "marks", "marks_rates", "marks_registry", "ear", "heard",
              "edtf", "fields", "own_rules", "challenge", "scenarios"],
    "claims": ["lib claim::", "claim_values", "challenge", "tickets", "plain"],
    "reports": ["lib report::", "report_values", "reports", "leaks", "guide", "handouts", "pages", "plain", "lessons",
                "glossary"],
    "buying": ["lib buy::", "buy_values", "buy", "lot", "stock_offers"],
}

# Signals of a program's own fault: stack or memory at an end, an impossible instruction.
OWN_FAULTS = {signal.SIGABRT, signal.SIGSEGV, signal.SIGBUS, signal.SIGILL, signal.SIGFPE}

# Beyond three times what a module takes of a core without mutants, and this many seconds, it hangs.
GRACE = 10


def programs(copy):
    """The test programs by name, as cargo built them."""
    command = ["cargo", "test", "--offline", "--no-run", "--lib", "--test", "it", "--message-format", "json"]
    said = subprocess.run(command, cwd=copy, capture_output=True, text=True, check=True).stdout
    found = [json.loads(line) for line in said.splitlines()]
    # The command line has the library's name, and is no test.
    return {m["target"]["name"]: m["executable"] for m in found if m.get("executable") and m["profile"]["test"]}


def tests(programs, copy, module, mutant, seconds, **more):
    """How they end, with the seconds of a core: passed, failed, hangs (beyond the limit), or ended by somebody else."""
    lib = module.startswith("lib ")
    name = module.removeprefix("lib ") if lib else module + "::"
    program = programs["printseam" if lib else "it"]
    command = [program, name, "--test-threads", "1"]
    environment = os.environ | {
        "MUTANT": str(mutant), "INSTA_UPDATE": "no", "RUST_BACKTRACE": "0", "PROPTEST_MAX_SHRINK_ITERS": "0",
        "PROPTEST_RNG_SEED": "2026", "CARGO_MANIFEST_DIR": str(copy.resolve()),
    } | more

    def limits():
        resource.setrlimit(resource.RLIMIT_AS, (6 << 30, 6 << 30))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))

    process = subprocess.Popen(command, cwd=copy, env=environment, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, preexec_fn=limits)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = status
    took = used.ru_utime + used.ru_stime
    if os.WIFEXITED(status):
        # 101 is how Rust's runner says that a test failed.
        return {0: "passed", 101: "failed"}.get(os.WEXITSTATUS(status), "ended"), took
    if took >= seconds - 1:
        return "hangs", took
    return "failed" if os.WTERMSIG(status) in OWN_FAULTS else "ended", took


def without_mutant(built, copy, module, longest):
    """Seconds the module takes, and the functions with mutants it enters."""
    with tempfile.NamedTemporaryFile("r") as file:
        outcome, seconds = tests(built, copy, module, 0, longest, REACHED=file.name)
        if outcome == "passed":
            return seconds, sorted({int(line) for line in file.read().split()})
        print(f"{module} is left out: it fails without a mutant, or takes longer", flush=True)


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("copy", type=Path)
    arguments.add_argument("--minutes", type=float, default=35)
    arguments.add_argument("--only", default="")
    arguments.add_argument("--longest", type=int, default=600, help="seconds a module may take")
    arguments.add_argument("--jobs", type=int, default=2)
    given = arguments.parse_args()
    copy = given.copy.resolve()
    built = programs(copy)
    mutants = json.loads((copy / "mutants.json").read_text())
    results = copy / "results.json"
    known = json.loads(results.read_text()) if results.exists() else {}

    baseline = copy / "baseline.json"
    if not baseline.exists():
        names = sorted({m for modules in MODULES.values() for m in modules})
        with ThreadPoolExecutor(given.jobs) as pool:
            found = pool.map(lambda module: without_mutant(built, copy, module, given.longest), names)
            baseline.write_text(json.dumps({name: one for name, one in zip(names, found) if one}))
    took, reached = {}, {}
    for module, (seconds, switches) in json.loads(baseline.read_text()).items():
        took[module], reached[module] = seconds, set(switches)
    print("seconds:", {m: round(t, 1) for m, t in sorted(took.items(), key=lambda x: x[1])}, flush=True)

    only = {int(n) for n in given.only.split(",") if n}
    mutants = [m for m in mutants if (m["number"] in only if only else str(m["number"]) not in known)]
    mutants.sort(key=lambda m: (not m["drawn"], m["order"]))
    until = time.time() + 60 * given.minutes

    def run(mutant):
        if time.time() > until:
            return
        modules = [m for m in MODULES[mutant["area"]] if mutant["switch"] in reached.get(m, ())]
        by = "nobody enters it" if not modules else None
        for module in sorted(modules, key=took.get):
            outcome, _ = tests(built, copy, module, mutant["number"], int(3 * took[module]) + GRACE)
            if outcome == "ended":
                print(f"{mutant['number']} is not counted: its run of {module} was ended", flush=True)
                return
            if outcome != "passed":
                by = module
                break
        noticed = by is not None and bool(modules)
        known[str(mutant["number"])] = {"noticed": noticed, "by": by}
        results.write_text(json.dumps(known))
        if not noticed:
            print(f"{mutant['number']} lives: {mutant['file']}:{mutant['line']} {mutant['function']}: "
                  f"{mutant['old']} -> {mutant['new']}  {by or ''}", flush=True)

    with ThreadPoolExecutor(given.jobs) as pool:
        list(pool.map(run, mutants))
    for folder in copy.glob("**/proptest-regressions"):
        shutil.rmtree(folder)

    every = json.loads((copy / "mutants.json").read_text())
    ran = [m | known[str(m["number"])] for m in every if str(m["number"]) in known]
    def figures(name, some):
        print(f"{name}: {len(some)} run, {sum(m['noticed'] for m in some)} noticed")
    figures("sample", [m for m in ran if m["drawn"]])
    for area in MODULES:
        figures(f"  {area}", [m for m in ran if m["drawn"] and m["area"] == area])
    for file in sorted({m["file"] for m in every if m["full"]}):
        figures(file, [m for m in ran if m["file"] == file])


if __name__ == "__main__":
    main()
