"""The network in numpy: tables laid out once, then a few array operations a piece.

Cells that the prior leaves at 0 are left out from the start, and the others lie by kind and decade, so that
sums over those are sums of neighbours.
"""
import numpy as np


def p_log2_p(p):
    """Of each; 0 of 0."""
    return p * np.log2(np.maximum(p, 1e-300))


class Numpy:
    NAME = "numpy"

    def __init__(self, network):
        n = network
        kind = np.repeat([k for k, _ in n.pairs], n.years)
        year = np.tile(np.arange(n.years), len(n.pairs))
        segment = kind * n.decades + n.decade[year]
        order = np.argsort(segment, kind="stable")
        order = order[n.prior.ravel()[order] > 0.0]
        self.kinds, self.years = n.kinds, n.years
        self.prior = n.prior.ravel()[order]
        self.kind, self.year = kind[order], year[order]
        # P(finding | cell): a row each finding of all clues, and the same the other way for the next question.
        self.first = np.cumsum([0, *(c.findings for c in n.clues)])
        rows = [c.by_pair().reshape(c.findings, -1)[:, order] for c in n.clues]
        self.by_finding = np.ascontiguousarray(np.concatenate(rows))
        self.by_cell = np.ascontiguousarray(self.by_finding.T)
        self.starts = np.flatnonzero(np.diff(segment[order], prepend=-1))
        self.segments = [slice(a, b) for a, b in zip(self.starts, [*self.starts[1:], len(order)])]
        self.kind_starts = np.flatnonzero(np.diff(self.kind, prepend=-1))
        self.kinds_there = self.kind[self.kind_starts]

    def cells(self, piece):
        p = self.prior.copy()
        for clue, finding in piece:
            p *= self.by_finding[self.first[clue] + finding]
        p /= p.sum()
        return p

    def posterior(self, piece):
        """P(kind) and P(year)."""
        p = self.cells(piece)
        kinds = np.zeros(self.kinds)
        kinds[self.kinds_there] = np.add.reduceat(p, self.kind_starts)
        return kinds, np.bincount(self.year, p, self.years)

    def bits(self, p):
        """Bits of every clue about (kind, decade), answered or not, from the cells of a piece."""
        by_segment = np.add.reduceat(p, self.starts)
        # As ours does, what has no probability worth the name is passed over.
        some = [i for i, mass in enumerate(by_segment) if mass >= 1e-18]
        joint = np.empty((len(some), self.by_cell.shape[1]))
        for row, i in zip(joint, some):
            np.dot(p[self.segments[i]], self.by_cell[self.segments[i]], out=row)
        each = p_log2_p(joint).sum(axis=0) - p_log2_p(joint.sum(axis=0))
        return np.add.reduceat(each, self.first[:-1]) - p_log2_p(by_segment).sum()
