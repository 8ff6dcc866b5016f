"""Figures for the price model, worked out by numpy, scipy and statsmodels.

    pip install numpy scipy statsmodels
    python price_model.py > price_model.json

Nothing here is taken from our program but the formulas' names: the regression's mean is found by weighted
least squares on the rows and on pseudo rows that stand for the prior (statsmodels), its shape and rate from
the marginal likelihood's textbook form (numpy), t and gamma distributions come from scipy, and the predictive
distribution of the wait also by integration over the gamma posterior (scipy.integrate).
"""

import json

import numpy
import scipy
import statsmodels
import statsmodels.api as sm
from scipy import integrate, stats

rng = numpy.random.default_rng(20261126)


def regression(n, p, worth, shape, rate):
    x = rng.normal(size=(n, p))
    x[:, 0] = 1.0
    mean = rng.normal(size=p)
    weights = rng.uniform(0.1, 1.0, size=n)
    y = x @ rng.normal(size=p) + rng.normal(size=n) * 0.5
    # A prior worth w_j is a pseudo row sqrt(w_j) e_j with the value sqrt(w_j) m_j.
    rows = numpy.vstack([x, numpy.diag(numpy.sqrt(worth))])
    values = numpy.concatenate([y, numpy.sqrt(worth) * mean])
    fit = sm.WLS(values, rows, weights=numpy.concatenate([weights, numpy.ones(p)])).fit()
    after = numpy.asarray(fit.params)
    before_precision = numpy.diag(worth)
    precision = before_precision + x.T @ (weights[:, None] * x)
    shape_after = shape + weights.sum() / 2
    rate_after = rate + 0.5 * (
        (weights * y * y).sum() + mean @ before_precision @ mean - after @ precision @ after
    )
    cases = []
    for _ in range(4):
        at = rng.normal(size=p)
        scale = numpy.sqrt(rate_after / shape_after * (1 + at @ numpy.linalg.solve(precision, at)))
        t = stats.t(df=2 * shape_after, loc=at @ after, scale=scale)
        cases.append({
            "x": at.tolist(),
            "location": float(at @ after),
            "scale": float(scale),
            "freedom": float(2 * shape_after),
            "interval_80": [float(v) for v in t.interval(0.8)],
            "cdf_at_0": float(t.cdf(0.0)),
        })
    return {
        "mean": mean.tolist(), "worth": list(map(float, worth)), "shape": shape, "rate": rate,
        "x": x.tolist(), "y": y.tolist(), "weights": weights.tolist(),
        "mean_after": after.tolist(), "shape_after": float(shape_after), "rate_after": float(rate_after),
        "predictions": cases,
    }


def wait(mean, worth, offers):
    shape, weeks = worth, mean * (worth - 1.0)
    for w, sold, weight in offers:
        weeks += weight * w
        shape += weight if sold else 0.0
    gamma = stats.gamma(a=shape, scale=1.0 / weeks)
    later = lambda t: integrate.quad(lambda r: numpy.exp(-r * t) * gamma.pdf(r), 0, numpy.inf, epsabs=1e-12)[0]
    lomax = stats.lomax(c=shape, scale=weeks)
    return {
        "mean": mean, "worth": worth, "offers": offers,
        "shape_after": shape, "weeks_after": weeks, "mean_after": float(lomax.mean()),
        "cdf": [[t, float(lomax.cdf(t)), 1.0 - later(t)] for t in (1.0, 6.0, 30.0)],
        "quantile": [[p, float(lomax.ppf(p))] for p in (0.05, 0.5, 0.9)],
    }


t_table = [
    {"t": t, "freedom": f, "cdf": float(stats.t.cdf(t, f))}
    for f in (1.0, 2.5, 4.0, 20.0, 137.3) for t in (-40.0, -3.3, -0.4, 0.0, 0.7, 2.1, 9.0)
]
t_table_quantiles = [
    {"p": p, "freedom": f, "t": float(stats.t.ppf(p, f))}
    for f in (2.5, 4.0, 20.0, 137.3) for p in (0.005, 0.1, 0.45, 0.5, 0.62, 0.9, 0.995)
]

print(json.dumps({
    "made_with": {"numpy": numpy.__version__, "scipy": scipy.__version__, "statsmodels": statsmodels.__version__},
    "student_t": {"cdf": t_table, "quantile": t_table_quantiles},
    "regressions": [
        regression(0, 3, numpy.array([4.0, 4.0, 4.0]), 10.0, 2.2),
        regression(7, 5, numpy.array([4.0, 4.0, 4.0, 4.0, 4.0]), 10.0, 2.2),
        regression(60, 5, numpy.array([1.0, 4.0, 2.0, 0.5, 9.0]), 2.0, 0.3),
    ],
    "waits": [
        wait(20.0, 3.0, []),
        wait(20.0, 3.0, [[3.0, True, 1.0], [11.0, True, 0.5], [40.0, False, 1.0], [8.0, False, 0.25]]),
    ],
}, indent=1))
