"""Ends of two stiff systems, by scipy's Radau at tolerances of 1e-12: tests/unit/test_rosenbrock.c.

Run: /usr/bin/python3 tests/oracles/stiff_systems.py
"""

from scipy.integrate import solve_ivp


def kinetics(_, y):
    """Robertson's three reactions."""
    slow = 0.04 * y[0]
    back = 1e4 * y[1] * y[2]
    fast = 3e7 * y[1] ** 2
    return [back - slow, slow - back - fast, fast]


def relaxation(_, y):
    """Van der Pol's oscillation."""
    return [y[1], 1000 * (1 - y[0] ** 2) * y[1] - y[0]]


for rates, end, start, least in [
    (kinetics, 40, [1, 0, 0], [1e-14, 1e-18, 1e-14]),
    (relaxation, 500, [2, 0], [1e-14, 1e-14]),
]:
    answer = solve_ivp(rates, [0, end], start, method="Radau", rtol=1e-12, atol=least)
    print(rates.__name__, end, [float(value) for value in answer.y[:, -1]])
