"""A small network worked out by a general-purpose Bayesian library, as a fixture for our engine.

Run:  pip install pyagrum numpy && python small_network.py > small_network.json

Kind -> Place -> Year (Year also under Kind) is the hidden joint; each clue is a child of those of
the three it depends on. Decade is a deterministic child of Year, so that the library's own joint
of (Kind, Decade, clue) gives the information.

Doubt is entered as soft evidence on the clue itself. The clue's table has the clue's own error e:
    P(g|h) = (1-e) s_g + e/n,    s_g = w_g / sum w.
A finding f said with error e' must weigh in as P'(f|h) = (1-e') s_f + e'/n. With the likelihood
vector lambda_g = a [g=f] + b over the clue's findings, the library uses
    sum_g lambda_g P(g|h) = a P(f|h) + b = a (1-e) s_f + a e/n + b,
so a = (1-e')/(1-e) matches the s_f term, and b = (e' - a e)/n = (1-a)/n the constant one
(as e' - a e = e' - e(1-e')/(1-e) = (e'-e)/(1-e) = 1-a). It is exact, and 0 <= b, a+b <= 1.
"""
import json
import math

import numpy as np
import pyagrum as gum

rng = np.random.default_rng(20261126)
SIZE = {"Kind": 4, "Place": 3, "Year": 24}
HIDDEN = list(SIZE)
FIRST = 1840
LEAST = 0.002
DOUBT = {"sure": 0.0, "unsure": 0.15, "guess": 0.40}
LADDER = [0.0, 0.1, 1.0, 3.0, 10.0, 30.0, 100.0]  # the design's words of frequency, Never to Typical

# id, findings, slip, what the weights depend on. 0.0 and 0.001 are lifted to the least error.
CLUES = [("by-kind", 2, 0.05, ["Kind"]), ("by-year", 3, 0.10, ["Year"]), ("by-all", 4, 0.02, HIDDEN),
         ("by-kind-year", 5, 0.0, ["Kind", "Year"]), ("by-place", 3, 0.20, ["Place"]),
         ("by-all-two", 2, 0.001, HIDDEN), ("by-kind-place", 4, 0.15, ["Kind", "Place"])]

# (clue, finding, sureness); none to all seven.
SETS = [[], [(0, 1, "sure")], [(1, 2, "sure")], [(2, 0, "unsure")], [(3, 4, "guess")],
        [(0, 0, "sure"), (1, 1, "sure")], [(4, 2, "unsure"), (5, 1, "sure")],
        [(0, 1, "guess"), (2, 3, "sure"), (6, 0, "sure")],
        [(3, 0, "sure"), (4, 0, "sure"), (5, 0, "unsure")],
        [(0, 0, "sure"), (1, 0, "unsure"), (2, 1, "guess"), (3, 2, "sure")],
        [(1, 1, "sure"), (2, 2, "sure"), (3, 3, "sure"), (4, 1, "sure"), (6, 3, "guess")],
        [(0, 1, "unsure"), (1, 2, "sure"), (2, 1, "sure"), (3, 0, "sure"), (4, 0, "guess"), (5, 0, "sure")],
        [(0, 1, "sure"), (1, 0, "sure"), (2, 3, "sure"), (3, 1, "unsure"), (4, 2, "sure"),
         (5, 0, "guess"), (6, 2, "sure")],
        [(i, 0, "sure") for i in range(7)]]


def shares(*shape):
    t = rng.random(shape) + 0.01
    return t / t.sum(axis=-1, keepdims=True)


def draw_weights(n, on):
    """Weights over `on` and the findings: a word of the ladder, or five of them joined to a curve of years."""
    blocks = [SIZE[a] for a in on if a != "Year"]
    steps = rng.choice(LADDER, size=[*blocks, 5, n])
    # A row of nothing but Never would say nothing about the piece; one finding stays possible.
    steps[..., 0] = np.where(steps.sum(axis=-1) == 0.0, 1.0, steps[..., 0])
    if "Year" not in on:
        return steps[..., 0, :]
    knots, years = np.linspace(0, SIZE["Year"] - 1, 5), np.arange(SIZE["Year"])
    return np.apply_along_axis(lambda heights: np.interp(years, knots, heights), -2, steps)


prior = {"Kind": shares(4), "Place": shares(4, 3), "Year": shares(4, 3, 24)}
clues = [{"id": name, "n": n, "slip": slip, "on": on, "w": draw_weights(n, on)} for name, n, slip, on in CLUES]


# ---- the network in pyAgrum --------------------------------------------------------------------
def fill(node, axes, values):
    """Sets a node's table cell by cell, every axis addressed by its name."""
    for at in np.ndindex(*values.shape[:-1]):
        bn.cpt(node)[dict(zip(axes, map(int, at)))] = [float(x) for x in values[at]]


bn = gum.BayesNet("small")
decade_of = [(FIRST + y) // 10 - FIRST // 10 for y in range(SIZE["Year"])]
DECADES = decade_of[-1] + 1
for name, n in [*SIZE.items(), ("Decade", DECADES), *((c["id"], c["n"]) for c in clues)]:
    bn.add(gum.LabelizedVariable(name, "", n))
for tail, head in [("Kind", "Place"), ("Kind", "Year"), ("Place", "Year"), ("Year", "Decade")]:
    bn.addArc(tail, head)
for c in clues:
    for parent in c["on"]:
        bn.addArc(parent, c["id"])
fill("Kind", [], prior["Kind"])
fill("Place", ["Kind"], prior["Place"])
fill("Year", ["Kind", "Place"], prior["Year"])
fill("Decade", ["Year"], np.eye(DECADES)[decade_of])
for c in clues:
    error = max(c["slip"], LEAST)
    share = c["w"] / c["w"].sum(axis=-1, keepdims=True)
    fill(c["id"], c["on"], (1 - error) * share + error / c["n"])


def evidence(clue, finding, sure):
    """A finding's index where sure, else the likelihood vector derived at the top."""
    error = max(clue["slip"], LEAST)
    doubted = max(clue["slip"] + DOUBT[sure], LEAST)
    if doubted == error:
        return finding
    a = (1 - doubted) / (1 - error)
    b = (1 - a) / clue["n"]
    return [a * (g == finding) + b for g in range(clue["n"])]


def joint(ie, names):
    """A joint posterior with its axes in the order of `names`, addressed by name."""
    p = ie.jointPosterior(set(names))
    out = np.zeros([bn.variable(n).domainSize() for n in names])
    for at in np.ndindex(*out.shape):
        out[at] = p[dict(zip(names, map(int, at)))]
    return out


def bits(p):
    """Mutual information between the last axis and all the others."""
    p = p.reshape(-1, p.shape[-1])
    apart = p.sum(axis=1, keepdims=True) * p.sum(axis=0, keepdims=True)
    on = p > 0
    return float((p[on] * np.log2(p[on] / apart[on])).sum())


# ---- the same by plain enumeration, from the formula and sharing no table with the above ---------
def enumerate_all(said):
    total, cells = 0.0, np.zeros(list(SIZE.values()))
    for k, l, y in np.ndindex(*cells.shape):
        x = prior["Kind"][k] * prior["Place"][k, l] * prior["Year"][k, l, y]
        for i, f, sure in said:
            x *= chance(clues[i], (k, l, y), f, DOUBT[sure])
        cells[k, l, y] = x
        total += x
    return cells / total, math.log(total)


def chance(clue, h, f, doubt):
    w = clue["w"][tuple(h[HIDDEN.index(a)] for a in clue["on"])]
    error = max(clue["slip"] + doubt, LEAST)
    return (1 - error) * w[f] / sum(w) + error / clue["n"]


def enumerated_bits(cells, clue):
    p = np.zeros((SIZE["Kind"], DECADES, clue["n"]))
    for k, l, y in np.ndindex(*cells.shape):
        for f in range(clue["n"]):
            p[k, (FIRST + y) // 10 - FIRST // 10, f] += cells[k, l, y] * chance(clue, (k, l, y), f, 0.0)
    entropy = lambda q: -sum(x * math.log2(x) for x in q.ravel() if x > 0)
    return entropy(p.sum(axis=2)) + entropy(p.sum(axis=(0, 1))) - entropy(p)


worst = {"posterior": 0.0, "log_probability": 0.0, "bits": 0.0}
cases = []
for said in SETS:
    ie = gum.LazyPropagation(bn)
    ie.addJointTarget(set(HIDDEN))
    open_clues = [i for i in range(len(clues)) if i not in [c for c, _, _ in said]]
    for i in open_clues:
        ie.addJointTarget({"Kind", "Decade", clues[i]["id"]})
    ie.setEvidence({clues[i]["id"]: evidence(clues[i], f, s) for i, f, s in said})
    ie.makeInference()
    post, log_p = joint(ie, HIDDEN), math.log(ie.evidenceProbability())
    information = [{"clue": i, "bits": bits(joint(ie, ["Kind", "Decade", clues[i]["id"]]))} for i in open_clues]

    plain, plain_log = enumerate_all(said)
    worst["posterior"] = max(worst["posterior"], float(np.abs(plain - post).max()))
    worst["log_probability"] = max(worst["log_probability"], abs(plain_log - log_p))
    for look in information:
        off = abs(look["bits"] - enumerated_bits(plain, clues[look["clue"]]))
        worst["bits"] = max(worst["bits"], off)
    cases.append({"said": [{"clue": i, "finding": f, "sure": s} for i, f, s in said],
                  "log_probability": log_p, "posterior": post.ravel().tolist(), "information": information})


def whole(clue):
    """Weights spread over all of (kind, place, year, finding), flat."""
    shape = [SIZE[a] if a in clue["on"] else 1 for a in HIDDEN] + [clue["n"]]
    return np.broadcast_to(clue["w"].reshape(shape), [*SIZE.values(), clue["n"]]).ravel().tolist()


# One clue and one case a line; json writes a float as repr does, so no digit is lost.
head = {"made_with": f"pyAgrum {gum.__version__}, numpy {np.__version__}",
        "largest_difference_to_enumeration": worst,
        "kinds": 4, "places": 3, "years": 24, "first_year": FIRST,
        "prior": (prior["Kind"][:, None, None] * prior["Place"][:, :, None] * prior["Year"]).ravel().tolist()}
rows = [f'"{k}": {json.dumps(v)}' for k, v in head.items()]
lists = {"clues": [{"id": c["id"], "n": c["n"], "slip": c["slip"], "weights": whole(c)} for c in clues],
         "cases": cases}
rows += [f'"{k}": [\n' + ",\n".join(json.dumps(x) for x in v) + "\n]" for k, v in lists.items()]
print("{\n" + ",\n".join(rows) + "\n}")
