"""The engine beside numpy and pyAgrum, on the network that the bench in Rust wrote.

Run:  pip install pyagrum numpy && python beside.py FOLDER

First every form has to give the engine's answers: P(kind) and P(year) to 1e-9, bits to 1e-6; one that does
not ends the run. Then each is timed on one thread as the bench times ours: a sample is a round over some
pieces, divided by their number, and the first round is not counted. `README.md` says what is left out.
"""
import os
import sys
import time
from importlib.metadata import version

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"
# No folder of compiled scripts among the sources.
sys.dont_write_bytecode = True

import numpy as np  # noqa: E402
import pyagrum as gum  # noqa: E402

from in_numpy import Numpy  # noqa: E402
from in_pyagrum import ENGINES, Axes, Cells, Tensors  # noqa: E402
from network import Network  # noqa: E402

MANY = 10_000
# Seconds beyond which 10,000 pieces are worked out from fewer.
LONG = 20.0
# Seconds that the rounds of one figure may take, as far as three rounds allow.
PATIENCE = 12.0


class Time:
    """Seconds an item: each one's fastest round, and the round in the middle, both averaged over the items.

    Rounds here are longer than the bench's, and an item's own fastest does not suffer for what else the
    machine did during the round: that favours these times before ours.
    """

    def __init__(self, work, items):
        start = time.perf_counter()
        work(items[0])
        once = time.perf_counter() - start
        self.items = int(np.clip(PATIENCE / 20 / once, 3, len(items)))
        rounds = []
        until = time.perf_counter() + PATIENCE
        while len(rounds) < 4 or (time.perf_counter() < until and len(rounds) < 51):
            rounds.append([clocked(work, item) for item in items[:self.items]])
        each = np.array(rounds[1:])
        self.rounds = len(each)
        self.fastest, self.median = each.min(axis=0).mean(), np.median(each.mean(axis=1))


def clocked(work, item):
    start = time.perf_counter()
    work(item)
    return time.perf_counter() - start


class OurTime:
    def __init__(self, said):
        self.fastest, self.median, self.rounds = said["fastest"] * 1e-6, said["median"] * 1e-6, said["rounds"]


def long_table(work, pieces, one):
    """Seconds for 10,000 pieces one after another, and from how many that was worked out."""
    if one.fastest * MANY > LONG:
        return one.fastest * MANY, one.items
    rounds = []
    for _ in range(3):
        start = time.perf_counter()
        for i in range(MANY):
            work(pieces[i % len(pieces)])
        rounds.append(time.perf_counter() - start)
    return min(rounds), MANY


def compare(name, what, got, wanted, limit):
    """The largest difference; ends the run when it is too large or no number."""
    off = float(np.max(np.abs(np.asarray(got) - wanted)))
    if not off <= limit:
        sys.exit(f"{name}: {what} differs by {off:.3g}, more than {limit:g}")
    return off


def check_posterior(network, form, name, pieces):
    worst = 0.0
    for n in range(pieces):
        kinds, years = form.posterior(network.pieces[n])
        worst = max(worst, compare(name, f"P(kind) of piece {n}", kinds, network.said_kinds[n], 1e-9),
                    compare(name, f"P(year) of piece {n}", years, network.said_years[n], 1e-9))
    print(f"{name}: posteriors of {pieces} pieces differ by {worst:.1e} at most", flush=True)


def check_bits(network, bits, name, pieces):
    worst = 0.0
    for n in range(pieces):
        wanted = network.said_bits[n]
        asked = ~np.isnan(wanted)
        got = bits(network.pieces[n])
        worst = max(worst, compare(name, f"bits of piece {n}", got[asked], wanted[asked], 1e-6))
    print(f"{name}: bits of {pieces} pieces differ by {worst:.1e} at most", flush=True)


def line(what, name, time, ours):
    ratio = "" if time is ours else f"{time.fastest / ours.fastest:.3g}"
    figures = f"{time.fastest * 1e3:.4g} | {time.median * 1e3:.4g}"
    note = f"{time.rounds} rounds" + (f" of {time.items}" if hasattr(time, "items") else "")
    print(f"| {what} | {name} | {figures} | {ratio} | {note} |", flush=True)


def main(folder):
    network = Network(folder)
    pieces, asked = network.pieces, network.pieces[:len(network.said_bits)]
    findings = sum(c.findings for c in network.clues)
    print(f"{len(network.pairs)} pairs × {network.years} years = {network.prior.size} cells, "
          f"{np.count_nonzero(network.prior)} of them with a prior; {len(network.clues)} clues, {findings} findings; "
          f"setting {network.setting}; {len(pieces)} pieces of {len(pieces[0])} findings")
    print(f"Python {sys.version.split()[0]}, numpy {version('numpy')}, pyAgrum {version('pyagrum')}, one thread")
    gum.setNumberOfThreads(1)
    posteriors, questions = [], []

    plain = Numpy(network)
    check_posterior(network, plain, "numpy", len(pieces))
    check_bits(network, lambda piece: plain.bits(plain.cells(piece)), "numpy", len(asked))
    posteriors.append(("numpy", plain.posterior))
    questions.append(("numpy", plain.bits, [plain.cells(p) for p in asked]))

    forms = [make(network, engine) for make in (Cells, Axes) for engine in ENGINES]
    for form in [*forms, Tensors(network)]:
        name = f"pyAgrum, {form.name}"
        check_posterior(network, form, name, 10)
        posteriors.append((name, form.posterior))
    axes = next(form for form in forms if isinstance(form, Axes))
    by_products = "pyAgrum, joint of pair, decade, year times each clue"
    by_inference = "pyAgrum, one inference with all joint targets"
    check_bits(network, lambda piece: axes.bits_by_products(axes.cells(piece), piece), by_products, 3)
    check_bits(network, axes.bits_by_inference, by_inference, 1)
    with_cells = [(gum.Tensor(axes.cells(p)), p) for p in asked]
    questions.append((by_products, lambda both: axes.bits_by_products(*both), with_cells))
    questions.append((by_inference, axes.bits_by_inference, asked))

    ours = {name: OurTime(said) for name, said in network.times.items()}
    print("\n| what | by | fastest, ms | median, ms | to ours | from |\n|---|---|---|---|---|---|")
    line("posterior", "ours", ours["posterior"], ours["posterior"])
    line("posterior", "ours, nothing kept", ours["posterior, nothing kept"], ours["posterior"])
    singly = []
    for name, work in posteriors:
        singly.append((name, work, Time(work, pieces)))
        line("posterior", name, singly[-1][2], ours["posterior"])
    line("next question", "ours", ours["next question"], ours["next question"])
    for name, work, items in questions:
        line("next question", name, Time(work, items), ours["next question"])

    print("\n| 10,000 pieces by | seconds | to ours | from so many pieces |\n|---|---|---|---|")
    own = ours["10,000 singly"].fastest
    print(f"| ours, one by one | {own:.3g} | | 10,000 |")
    outline = ours["10,000 in outline"].fastest
    print(f"| ours, `bulk::Ground::outline` | {outline:.3g} | {outline / own:.3g} | 10,000 |")
    for name, work, one in singly:
        seconds, of = long_table(work, pieces, one)
        print(f"| {name} | {seconds:.3g} | {seconds / own:.3g} | {of:,} |", flush=True)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(sys.argv[1])
