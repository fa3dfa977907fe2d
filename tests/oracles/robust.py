#!/usr/bin/env python3
"""Prints tests/reference/robust.csv: robust statistics, periodograms and cycles of constructed values, by general
libraries. SciPy 1.10.1 and NumPy 1.24.2 (Debian 12: apt-get install python3-scipy); nothing of quell is used.

    python3 tests/oracles/robust.py > tests/reference/robust.csv
"""
import numpy as np
from scipy import signal, stats

rng = np.random.default_rng(20260301)
TIDY = [345.0, 345.4, 345.9, 346.1, 352.0, 347.0, 347.6, 347.9, 348.4, 348.8]
INLET = [620, 640, 655, 690, 700, 725, 760, 790]
OUTLET = [345.0, 346.1, 347.2, 348.6, 349.4, 350.4, 352.6, 353.9]
TIMES = [0.0, 0.7, 1.9, 3.1, 4.4, 5.0, 6.6, 8.1, 9.0, 10.7, 12.2, 13.9]
SWINGS = [1.2, 2.0, 0.4, -1.1, -1.6, -0.3, 1.9, 0.9, -0.9, -1.7, 1.5, 1.8]
NOISY = np.round(np.cumsum(rng.normal(0.05, 1.0, 61)), 3)
TIED = rng.integers(0, 5, 47).astype(float)
UNEVEN = np.round(np.sort(rng.uniform(0, 60, 80)), 3)
WAVE = np.round(2 * np.sin(2 * np.pi * 0.23 * UNEVEN) + rng.normal(0, 0.7, 80), 3)


def text(values):
    return " ".join(repr(float(v)) for v in values)


def row(case, what, known, source, x, y, parameter, expected, tolerance):
    print(",".join([case, '"' + source + '"', known, what, text(x), text(y), repr(float(parameter)), repr(float(expected)),
                    repr(tolerance)]))


def kendall(y):
    """S and Z with the correction for ties, by SciPy's tau: S = tau_b * sqrt((n0 - n1) n0)."""
    y = np.asarray(y)
    n = len(y)
    s = sum(np.sign(y[j] - y[i]) for i in range(n) for j in range(i + 1, n))
    ties = np.unique(y, return_counts=True)[1]
    variance = (n * (n - 1) * (2 * n + 5) - sum(t * (t - 1) * (2 * t + 5) for t in ties)) / 18
    n0 = n * (n - 1) / 2
    n1 = sum(t * (t - 1) / 2 for t in ties)
    assert abs(stats.kendalltau(np.arange(n), y).statistic - s / np.sqrt((n0 - n1) * n0)) < 1e-12
    return s, (s - np.sign(s)) / np.sqrt(variance)


def hampel(y, half, times):
    y = np.asarray(y, float)
    clean = y.copy()
    for i in range(half, len(y) - half):
        part = y[i - half:i + half + 1]
        middle = np.median(part)
        if abs(y[i] - middle) > times * 1.4826 * np.median(abs(part - middle)):
            clean[i] = middle
    return clean


def rainflow(y):
    """Cycles by the three-point rule over a list of turning points, in another order of work: the whole list at once."""
    turns = [y[0]]
    for value in y[1:]:
        if len(turns) > 1 and (turns[-1] - turns[-2]) * (value - turns[-1]) > 0:
            turns[-1] = value
        elif value != turns[-1]:
            turns.append(value)
    counts, start = [], 0
    points = []
    for turn in turns:
        points.append(turn)
        while len(points) >= 3:
            x, near = abs(points[-1] - points[-2]), abs(points[-2] - points[-3])
            if x < near:
                break
            if len(points) == 3:
                counts.append((near, 0.5))
                points.pop(0)
            else:
                counts.append((near, 1.0))
                del points[-3:-1]
    counts += [(abs(b - a), 0.5) for a, b in zip(points, points[1:])]
    return counts


print("# Tolerance absolute. x and y are lists of numbers with blanks between. Printed by: python3 tests/oracles/robust.py")
print("case,source,known,quantity,x,y,parameter,expected,tolerance")
t = np.arange(10)
lib = "SciPy 1.10.1 " + "{}: tests/oracles/robust.py"
row("ten means with one wrong", "theil_sen", "OWN", lib.format("stats.theilslopes"), t, TIDY, 0, stats.theilslopes(TIDY, t)[0], 1e-9)
row("inlet effect", "theil_sen", "OWN", lib.format("stats.theilslopes"), INLET, OUTLET, 0, stats.theilslopes(OUTLET, INLET)[0], 1e-12)
row("a walk of 61", "theil_sen", "OWN", lib.format("stats.theilslopes"), np.arange(61), NOISY, 0, stats.theilslopes(NOISY, np.arange(61))[0], 1e-12)
for name, y in (("ten means with one wrong", TIDY), ("a walk of 61", NOISY), ("47 with ties", TIED)):
    s, z = kendall(y)
    row(name, "kendall_s", "OWN", lib.format("stats.kendalltau"), [], y, 0, s, 0.0)
    row(name, "kendall_z", "OWN", lib.format("stats.kendalltau"), [], y, 0, z, 1e-9)
    row(name, "mad_sigma", "OWN", lib.format("stats.median_abs_deviation"), [], y, 0, 1.4826 * stats.median_abs_deviation(y), 1e-9)
    for share in (0.0, 0.05, 0.5, 0.953, 1.0):
        row(name, "quantile", "OWN", "NumPy 1.24.2 quantile: tests/oracles/robust.py", [], y, share, np.quantile(y, share), 1e-12)
spiky = np.round(np.sin(np.arange(60) / 7) * 3 + rng.normal(0, 0.2, 60), 3)
spiky[[9, 23, 24, 48]] += [9, -7, 6, 12]
for at in (8, 9, 23, 24, 40, 48):
    row("four spikes in a slow swing", "hampel", "OWN", "NumPy 1.24.2 median: tests/oracles/robust.py", [], spiky, at, hampel(spiky, 5, 3)[at], 1e-12)
scaled = lambda f, x, y: signal.lombscargle(np.asarray(x), np.asarray(y) - np.mean(y), [2 * np.pi * f])[0] * 2 / (len(y) * np.var(y))
for f in (0.10, 0.15, 0.18, 0.20, 0.25):
    row("twelve uneven", "lomb_scargle", "OWN", lib.format("signal.lombscargle"), TIMES, SWINGS, f, scaled(f, TIMES, SWINGS), 1e-9)
for f in (0.1, 0.23, 0.31):
    row("eighty uneven", "lomb_scargle", "OWN", lib.format("signal.lombscargle"), UNEVEN, WAVE, f, scaled(f, UNEVEN, WAVE), 1e-9)
astm = [-2, 1, -3, 5, -1, 3, -4, 4, -2]
for size, count in ((3, 0.5), (4, 1.5), (6, 0.5), (8, 1.0), (9, 0.5)):
    assert sum(c for r, c in rainflow(astm) if r == size) == count
    row("worked example", "rainflow", "READ", "ASTM E1049-85 (2017) figure 6 (from memory)", [], astm, size, count, 0.0)
hard = np.round(rng.normal(0, 3, 300)).astype(float)
for size in (1, 3, 5, 9):
    row("300 of noise", "rainflow", "OWN", "the whole list at once: tests/oracles/robust.py", [], hard, size, sum(c for r, c in rainflow(hard) if r == size), 0.0)
step = np.round(np.concatenate([rng.normal(400, 2, 12), rng.normal(425, 2, 9), rng.normal(412, 2, 11)]), 2)
sigma = 1.4826 * stats.median_abs_deviation(np.diff(step)) / np.sqrt(2)
row("two steps", "penalty", "OWN", lib.format("stats.median_abs_deviation"), [], step, 0, 3 * sigma * np.log(len(step)), 1e-9)
row("two steps", "first cut", "OWN", "as constructed: tests/oracles/robust.py", [], step, 0, 12, 0.0)
row("two steps", "last cut", "OWN", "as constructed: tests/oracles/robust.py", [], step, 0, 21, 0.0)
flat = np.round(rng.normal(400, 2, 32), 2)
row("no step", "cuts", "OWN", "as constructed: tests/oracles/robust.py", [], flat, 0, 0, 0.0)
