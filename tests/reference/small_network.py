"""A small network worked out by a general-purpose Bayesian library, as a fixture for our engine.

Run:  pip install pyagrum numpy && python small_network.py > small_network.json

Kind -> Place -> Year is the hidden joint; each clue is a child of all three. Doubt is entered as
soft evidence: for a clue of n findings with slip e, a finding said with error e' has
P'(f|h) = (1-e') s_f + e'/n, and with P(g|h) = (1-e) s_g + e/n this equals
sum_g lambda_g P(g|h) with lambda_g = a [g=f] + b, a = (1-e')/(1-e), b = (1-a)/n.
"""
import json
import numpy as np
import pyagrum as gum

rng = np.random.default_rng(20261125)
K, L, Y, FIRST = 4, 3, 24, 1840
LEAST = 0.002

def table(*shape):
    t = rng.random(shape) + 0.01
    return t / t.sum(axis=-1, keepdims=True)

pk, pl, py = table(K), table(K, L), table(K, L, Y)
clues = []
for n, slip, on in [(2, 0.05, "kind"), (3, 0.10, "year"), (4, 0.02, "all"), (5, 0.0, "kind-year"),
                    (3, 0.20, "place"), (2, 0.01, "all"), (4, 0.15, "kind-place")]:
    w = rng.random((K, L, Y, n)) * 100
    if on == "kind": w[:] = w[:, :1, :1]
    if on == "year": w[:] = w[:1, :1, :]
    if on == "place": w[:] = w[:1, :, :1]
    if on == "kind-year": w[:] = w[:, :1, :]
    if on == "kind-place": w[:] = w[:, :, :1]
    clues.append({"n": n, "slip": slip, "weights": w})

bn = gum.BayesNet()
k = bn.add(gum.LabelizedVariable("Kind", "", K))
l = bn.add(gum.LabelizedVariable("Place", "", L))
y = bn.add(gum.LabelizedVariable("Year", "", Y))
decades = (FIRST + Y - 1) // 10 - FIRST // 10 + 1
d = bn.add(gum.LabelizedVariable("Decade", "", decades))
for a, b in [(k, l), (k, y), (l, y), (y, d)]:
    bn.addArc(a, b)
for i, c in enumerate(clues):
    v = bn.add(gum.LabelizedVariable(f"C{i}", "", c["n"]))
    for parent in (k, l, y):
        bn.addArc(parent, v)
for a in range(K):
    bn.cpt("Kind")[{"Kind": a}] = pk[a]
    for b in range(L):
        bn.cpt("Place")[{"Kind": a, "Place": b}] = pl[a, b]
        for c in range(Y):
            bn.cpt("Year")[{"Kind": a, "Place": b, "Year": c}] = py[a, b, c]
for c in range(Y):
    for e in range(decades):
        bn.cpt("Decade")[{"Year": c, "Decade": e}] = float((FIRST + c) // 10 - FIRST // 10 == e)

def chances(clue, error):
    w = clue["weights"]
    share = w / w.sum(axis=-1, keepdims=True)
    return (1 - error) * share + error / clue["n"]

for i, clue in enumerate(clues):
    e = max(clue["slip"], LEAST)
    p = chances(clue, e)
    for a in range(K):
        for b in range(L):
            for c in range(Y):
                for f in range(clue["n"]):
                    bn.cpt(f"C{i}")[{"Kind": a, "Place": b, "Year": c, f"C{i}": f}] = p[a, b, c, f]

DOUBT = {"sure": 0.0, "unsure": 0.15, "guess": 0.40}
SETS = [[], [(0, 1, "sure")], [(1, 2, "sure")], [(2, 0, "unsure")], [(3, 4, "guess")],
        [(0, 0, "sure"), (1, 1, "sure")], [(4, 2, "unsure"), (5, 1, "sure")],
        [(0, 1, "guess"), (2, 3, "sure"), (6, 0, "sure")],
        [(3, 0, "sure"), (4, 0, "sure"), (5, 0, "unsure")],
        [(0, 0, "sure"), (1, 0, "unsure"), (2, 1, "guess"), (3, 2, "sure")],
        [(1, 1, "sure"), (2, 2, "sure"), (3, 3, "sure"), (4, 1, "sure"), (6, 3, "guess")],
        [(0, 1, "sure"), (1, 0, "sure"), (2, 3, "sure"), (3, 1, "unsure"), (4, 2, "sure"),
         (5, 0, "guess"), (6, 2, "sure")]]

def soft(clue, finding, sure):
    e = max(clue["slip"], LEAST)
    doubted = max(clue["slip"] + DOUBT[sure], LEAST)
    a = (1 - doubted) / (1 - e)
    return [a * (g == finding) + (1 - a) / clue["n"] for g in range(clue["n"])]

def joint(ie, names):
    """Joint posterior as an array with axes in the order of `names`, addressed by name."""
    p = ie.jointPosterior(set(names))
    sizes = [bn.variable(n).domainSize() for n in names]
    out = np.zeros(sizes)
    inst = gum.Instantiation(p)
    inst.setFirst()
    while not inst.end():
        at = tuple(inst[n] for n in names)
        out[at] = p[inst]
        inst.inc()
    return out

def information(ie, clue):
    p = joint(ie, ["Kind", "Decade", clue])
    x, f = p.sum(axis=2, keepdims=True), p.sum(axis=(0, 1), keepdims=True)
    on = p > 0
    return float((p[on] * np.log2(p[on] / (x * f)[on])).sum())

worst = 0.0
cases = []
for said in SETS:
    ie = gum.LazyPropagation(bn)
    ie.addJointTarget({"Kind", "Place", "Year"})
    for i in range(len(clues)):
        ie.addJointTarget({"Kind", "Decade", f"C{i}"})
    ie.setEvidence({f"C{i}": soft(clues[i], f, s) for i, f, s in said})
    ie.makeInference()
    post = joint(ie, ["Kind", "Place", "Year"])
    # Cross-check by plain enumeration.
    plain = pk[:, None, None] * pl[:, :, None] * py
    for i, f, s in said:
        plain = plain * chances(clues[i], max(clues[i]["slip"] + DOUBT[s], LEAST))[..., f]
    plain /= plain.sum()
    worst = max(worst, float(np.abs(plain - post).max()))
    open_clues = [i for i in range(len(clues)) if i not in [c for c, _, _ in said]]
    cases.append({"said": [{"clue": i, "finding": f, "sure": s} for i, f, s in said],
                  "posterior": post.reshape(-1).tolist(),
                  "information": [{"clue": i, "bits": information(ie, f"C{i}")} for i in open_clues]})

print(json.dumps({
    "made_with": f"pyAgrum {gum.__version__}, numpy {np.__version__}",
    "largest_difference_to_enumeration": worst,
    "kinds": K, "places": L, "years": Y, "first_year": FIRST,
    "prior": (pk[:, None, None] * pl[:, :, None] * py).reshape(-1).tolist(),
    "clues": [{"n": c["n"], "slip": c["slip"], "weights": c["weights"].reshape(-1).tolist()} for c in clues],
    "cases": cases,
}))
