"""The network in pyAgrum, in the forms that were tried.

`Cells` is the naive network itself: one hidden node with a state a cell, and a child a clue. `Axes` has
pair, decade and year within the decade as nodes of their own, so that the library's own joint of pair,
decade and clue gives the information. `Tensors` multiplies the library's tables by hand, without inference.
Kinds are summed from pairs by numpy, and bits worked out by it, in all of them.
"""
import numpy as np
import pyagrum as gum

from in_numpy import p_log2_p

ENGINES = {"lazy propagation": gum.LazyPropagation, "Shafer-Shenoy": gum.ShaferShenoyInference,
           "variable elimination": gum.VariableElimination}


def variable(name, states):
    return gum.RangeVariable(name, name, 0, states - 1)


class Cells:
    """One hidden node."""

    def __init__(self, network, engine):
        self.network, self.name = network, f"one hidden node, {engine}"
        self.bn = gum.BayesNet()
        cells = network.prior.size
        self.bn.add(variable("cell", cells))
        self.bn.cpt("cell")[:] = network.prior.ravel()
        for i, clue in enumerate(network.clues):
            self.bn.add(variable(str(i), clue.findings))
            self.bn.addArc("cell", str(i))
            self.bn.cpt(str(i))[:] = np.ascontiguousarray(clue.by_pair().reshape(clue.findings, cells).T)
        self.engine = ENGINES[engine](self.bn)
        self.engine.setNumberOfThreads(1)
        self.engine.addTarget("cell")

    def posterior(self, piece):
        self.engine.setEvidence({str(clue): finding for clue, finding in piece})
        self.engine.makeInference()
        p = self.engine.posterior("cell").toarray().reshape(self.network.prior.shape)
        return self.network.kinds_of(p.sum(axis=1)), p.sum(axis=0)


class Axes:
    """Pair, decade and year within the decade as nodes."""

    def __init__(self, network, engine):
        self.network, self.name = network, f"pair, decade, year as nodes, {engine}"
        self.bn = gum.BayesNet()
        axes = {"pair": len(network.pairs), "decade": network.decades, "year": 10}
        for name, states in axes.items():
            self.bn.add(variable(name, states))
        for arc in [("pair", "decade"), ("pair", "year"), ("decade", "year")]:
            self.bn.addArc(*arc)
        prior = network.by_decade(network.prior, 0.0)
        by_pair, by_decade = prior.sum(axis=(1, 2)), prior.sum(axis=2)
        self.fill("pair", ["pair"], by_pair)
        self.fill("decade", ["pair", "decade"], divided(by_decade, by_pair[:, None]))
        self.fill("year", ["pair", "decade", "year"], divided(prior, by_decade[:, :, None]))
        for i, clue in enumerate(network.clues):
            self.bn.add(variable(str(i), clue.findings))
            for name in axes:
                self.bn.addArc(name, str(i))
            table = network.by_decade(clue.by_pair(), 1.0 / clue.findings)
            self.fill(str(i), [str(i), *axes], table)
        self.engine = ENGINES[engine](self.bn)
        self.engine.setNumberOfThreads(1)
        self.engine.addJointTarget(set(axes))

    def fill(self, node, axes, values):
        wanted = self.bn.cpt(node).names[::-1]
        self.bn.cpt(node)[:] = np.ascontiguousarray(values.transpose([axes.index(a) for a in wanted]))

    def cells(self, piece):
        self.engine.setEvidence({str(clue): finding for clue, finding in piece})
        self.engine.makeInference()
        return self.engine.jointPosterior({"pair", "decade", "year"})

    def posterior(self, piece):
        p = array(self.cells(piece), ["pair", "decade", "year"])
        years = self.network.years_of(p.sum(axis=0))
        return self.network.kinds_of(p.sum(axis=(1, 2))), years

    def bits_by_products(self, p, piece):
        """From the joint of the hidden nodes: times each clue's table, the year summed out."""
        answered = {clue for clue, _ in piece}
        joint = {i: (p * self.bn.cpt(str(i))).sumOut(["year"])
                 for i in range(len(self.network.clues)) if i not in answered}
        return self.information(joint)

    def bits_by_inference(self, piece):
        """The library's own joint of pair, decade and clue, all asked for at once."""
        answered = {clue for clue, _ in piece}
        left = [i for i in range(len(self.network.clues)) if i not in answered]
        engine = gum.LazyPropagation(self.bn)
        engine.setNumberOfThreads(1)
        for i in left:
            engine.addJointTarget({"pair", "decade", str(i)})
        engine.setEvidence({str(clue): finding for clue, finding in piece})
        engine.makeInference()
        return self.information({i: engine.jointPosterior({"pair", "decade", str(i)}) for i in left})

    def information(self, joints):
        out = np.full(len(self.network.clues), np.nan)
        for i, joint in joints.items():
            p = array(joint, ["pair", "decade", str(i)])
            p = self.network.kinds_of(p.reshape(len(p), -1)).reshape(-1, p.shape[2])
            out[i] = p_log2_p(p).sum() - p_log2_p(p.sum(axis=0)).sum() - p_log2_p(p.sum(axis=1)).sum()
        return out


class Tensors(Axes):
    """The same tables multiplied without inference: each finding cut out of its clue beforehand."""

    def __init__(self, network):
        super().__init__(network, "lazy propagation")
        self.name = "tables multiplied by hand"
        bn = self.bn
        self.prior = bn.cpt("pair") * bn.cpt("decade") * bn.cpt("year")
        self.cut = [[bn.cpt(str(i)).extract({str(i): f}) for f in range(clue.findings)]
                    for i, clue in enumerate(network.clues)]

    def cells(self, piece):
        p = self.prior
        for clue, finding in piece:
            p = p * self.cut[clue][finding]
        return p.normalize()


def array(tensor, axes):
    names = tensor.names[::-1]
    return tensor.toarray().transpose([names.index(a) for a in axes])


def divided(above, below):
    """Shares; where nothing is to be shared out, alike."""
    even = np.full(above.shape, 1.0 / above.shape[-1])
    return np.divide(above, below, out=even, where=below > 0.0)
