"""What the bench in Rust wrote: the network, its answers and its times."""
import json
from pathlib import Path

import numpy as np


class Clue:
    """A listed clue; `likelihoods[finding, row, year]`, misreading included."""

    def __init__(self, said, likelihoods, years):
        self.id, self.findings = said["id"], said["findings"]
        self.row_of_pair = np.array(said["row_of_pair"])
        size = self.findings * said["rows"] * years
        of_clue = likelihoods[said["from"]:said["from"] + size]
        self.likelihoods = of_clue.reshape(self.findings, said["rows"], years)

    def by_pair(self):
        """P(finding | pair, year)."""
        return self.likelihoods[:, self.row_of_pair]


class Network:
    def __init__(self, folder):
        folder = Path(folder)
        said = json.loads((folder / "network.json").read_text())
        self.setting, self.pairs = said["setting"], [tuple(p) for p in said["pairs"]]
        self.kinds, self.years = said["kinds"], said["years"]
        year = said["first_year"] + np.arange(self.years)
        self.decade = year // 10 - year[0] // 10
        self.decades = int(self.decade[-1]) + 1
        self.within = year % 10
        self.prior = figures(folder, "prior").reshape(len(self.pairs), self.years)
        likelihoods = figures(folder, "likelihoods")
        self.clues = [Clue(c, likelihoods, self.years) for c in said["clues"]]
        self.pieces = said["pieces"]
        self.said_kinds = figures(folder, "kinds").reshape(-1, self.kinds)
        self.said_years = figures(folder, "years").reshape(-1, self.years)
        self.said_bits = figures(folder, "bits").reshape(-1, len(self.clues))
        self.times = said["times_us"]
        self.pairs_of_kind = np.zeros((self.kinds, len(self.pairs)))
        for pair, (kind, _) in enumerate(self.pairs):
            self.pairs_of_kind[kind, pair] = 1.0

    def kinds_of(self, by_pair):
        """Pairs summed to kinds."""
        return self.pairs_of_kind @ by_pair

    def by_decade(self, values, rest):
        """The last axis, years, as decades × years within them; `rest` for years that the axis does not have."""
        out = np.full((*values.shape[:-1], self.decades, 10), rest)
        out[..., self.decade, self.within] = values
        return out

    def years_of(self, by_decade):
        """Back again."""
        return by_decade[..., self.decade, self.within]


def figures(folder, name):
    return np.fromfile(folder / f"{name}.f64", dtype="<f8")
