#!/usr/bin/env python3
"""Whether the fall-off of a log of 20 days grew, by NumPy and SciPy, for the rows of tests/reference/fall_off.csv: the steps of docs/theory/pressure_log.md
("Over days and weeks") with the general library's medians, Theil-Sen slopes and interpolation. Compares, or with the argument "print" writes
the rows anew. Printed by NumPy 1.24.2 and SciPy 1.10.1 (Debian 12). tests/reference/run_fall_off.c lays down the same log.
"""
import csv
import math
import os
import sys

import numpy
from scipy import stats

from rows import ROOT, Checked, number

SOURCE = "tests/oracles/fall_off.py"
DAYS, DRAWS = 20, 24
CASES = [("steady", 0.0, 0, 0.0, 0.0, 0.0), ("grows", 13.0, 0, 0.0, 0.0, 0.0), ("shrinks", -9.0, 0, 0.0, 0.0, 0.0), ("step", 0.0, 12, 250.0, 0.0, 0.0),
         ("set-point drifts", 0.0, 0, 0.0, -1.5, 0.0), ("set-point drifts and it grows", 13.0, 0, 0.0, 1.5, 0.0),
         ("main falls", 0.0, 0, 0.0, 0.0, 6.0), ("main falls and it grows", 13.0, 0, 0.0, 0.0, 6.0)]


def runs(row):
    """Day, flow in L/s, inlet and outlet in kPa of each draw."""
    state, made = 1, []
    grows, step_day, step, drifts, falls = (number(row[key]) for key in ("grows", "step_day", "step", "set_drifts", "main_falls"))
    for day in range(DAYS):
        for draw in range(DRAWS):
            noise = []
            for _ in range(2):
                state = (1103515245 * state + 12345) % 2**31
                noise.append(state / 2**31 - 0.5)
            flow = 0.06 + 0.04 * ((5 * draw + day) % 8)
            inlet = 700.0 - falls * day + 40.0 * noise[0]
            screen = grows * day + (step if step > 0.0 and day >= step_day else 0.0)
            outlet = 395.0 + drifts * day - 110.0 * flow * math.sqrt(300.0 / (inlet - 395.0)) - screen * flow**2 + 2.0 * noise[1]
            made.append((day, flow, inlet, outlet))
    return numpy.array(made)


def inlet_median(row, of):
    """Of all rows, a draw has 12 of the hour's 360: the middle of the class of 0.5 kPa that holds the lower of the two in the middle."""
    rest = [700.0 - number(row["main_falls"]) * day for day in range(DAYS)]
    every = numpy.concatenate([numpy.repeat(rest, DRAWS * 348), numpy.repeat(of[:, 2], 12)])
    return math.floor(float(numpy.percentile(every, 50, method="lower")) / 0.5) * 0.5 + 0.25


def slope_apart(y, x, apart):
    """Theil-Sen's slope of the pairs that are further apart."""
    one, other = numpy.triu_indices(len(x), 1)
    far = abs(x[other] - x[one]) > apart
    return float(numpy.median((y[other] - y[one])[far] / (x[other] - x[one])[far]))


def moved(row):
    of = runs(row)
    day, flow, inlet, outlet = of.T
    order = numpy.argsort(flow, kind="stable")
    low = order[:len(order) // 2]
    slope = min(stats.theilslopes(outlet[low], flow[low])[0], 0.0)
    setting = float(numpy.median(outlet[low] - slope * flow[low]))
    high = flow[order][int(0.95 * (len(order) - 1))]
    fall = (setting - outlet) * numpy.sqrt((inlet - setting) / (inlet_median(row, of) - setting))
    levels = numpy.unique(numpy.round(flow, 6))
    usual = numpy.interp(flow, levels, [numpy.median(fall[abs(flow - level) < 1e-6]) for level in levels])
    more = numpy.array([slope_apart((fall - usual)[day == d], flow[day == d]**2, 0.03 * high) * high**2 for d in range(DAYS)])
    trend = stats.theilslopes(more, numpy.arange(DAYS))[0]
    line = more - trend * numpy.arange(DAYS)

    def spread(values):
        return float(numpy.sum(abs(values - numpy.median(values))))

    cut = min(range(1, DAYS), key=lambda c: spread(more[:c]) + spread(more[c:]))
    sigma = 1.4826 * stats.median_abs_deviation(numpy.diff(more)) / math.sqrt(2.0)
    left = spread(more[:cut]) + spread(more[cut:])
    is_step = spread(more) - left > 3.0 * sigma * math.log(DAYS) and left < spread(line)
    by = float(numpy.median(more[cut:]) - numpy.median(more[:cut])) if is_step else float(trend * (DAYS - 1))
    return {"expected": by, "is_step": float(is_step)}


def write_all():
    with open(os.path.join(ROOT, "tests/reference/fall_off.csv"), "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        keys = ["grows", "step_day", "step", "set_drifts", "main_falls"]
        writer.writerow(["case", "source", "known", "tolerance"] + keys + ["expected", "is_step"])
        for case in CASES:
            got = moved(dict(zip(keys, map(str, case[1:]))))
            writer.writerow([case[0], SOURCE, "OWN", 0.03, *case[1:], repr(got["expected"]), repr(got["is_step"])])


if sys.argv[1:] == ["print"]:
    write_all()
checked = Checked(SOURCE)
checked.table("fall_off", False, moved)
checked.end()
