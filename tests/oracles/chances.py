#!/usr/bin/env python3
"""Fixtures used at once, apart from the program, for the rows of tests/reference that name this script: binomials in exact
fractions or in 50 digits, unlike fixtures by convolution. Python's standard library only. With the argument "all" it takes the row of
12,000 fixtures too, which takes a minute or two.
"""
import math
import sys
from decimal import Decimal, getcontext
from fractions import Fraction

from rows import GPM, Checked, number

getcontext().prec = 60
# Of the normal law; 0.99 with the digits that the study's factor has.
Z = {0.99: 2.3263478740408408}


def binomial(row):
    """The logarithm of an exact fraction, p taken as the double that it is."""
    k, n, p = int(row["k"]), int(row["n"]), Fraction(float(row["p"]))
    exact = lambda x: (Decimal(x.numerator) / Decimal(x.denominator)).ln()
    return float(Decimal(math.comb(n, k)).ln() + k * exact(p) + (n - k) * exact(1 - p))


def law(count, p):
    """Shares by the number in use, down to 1e-46 of the likeliest: by recurrence from it in 60 digits, over their sum."""
    p = Decimal(p)
    mode = int((count + 1) * p)
    shares = {mode: Decimal(1)}
    k = mode
    while k < count and shares[k] > Decimal("1e-46"):
        shares[k + 1] = shares[k] * (count - k) / (k + 1) * p / (1 - p)
        k += 1
    k = mode
    while k > 0 and shares[k] > Decimal("1e-46"):
        shares[k - 1] = shares[k] * k / (count - k + 1) * (1 - p) / p
        k -= 1
    whole = sum(shares.values())
    return {k: float(share / whole) for k, share in shares.items()}


def groups_of(row):
    return [(int(count), float(flow), p) for count, flow, p in (group.split(":") for group in row["groups_count_gpm_p"].split("|"))]


def flows_of(groups):
    """Shares by the flow in thousandths of a gpm."""
    sums = {0: 1.0}
    for count, flow, p in groups:
        step, more = round(flow * 1000), {}
        for k, share in law(count, p).items():
            for at, before in sums.items():
                more[at + k * step] = more.get(at + k * step, 0.0) + before * share
        sums = more
    return sums


def quantile(sums, share):
    total = 0.0
    for at in sorted(sums):
        total += sums[at]
        if total >= share - 1e-13:
            return at / 1000
    return max(sums) / 1000


def moments(groups):
    mean = sum(count * flow * float(p) for count, flow, p in groups)
    return mean, math.sqrt(sum(count * flow**2 * float(p) * (1 - float(p)) for count, flow, p in groups))


def hunter_binomial(row):
    return quantile(flows_of([(int(row["count"]), float(row["fixture_gpm"]), row["p"])]), 0.99)


def normal_approximation(row):
    groups = groups_of(row)
    mean, deviation = moments(groups)
    z = Z[float(row["quantile"])]
    busy = 1 - math.prod((1 - float(p)) ** count for count, _, p in groups)
    square = (deviation**2 + mean**2) / busy - (mean / busy) ** 2
    return {"flow_gpm": mean + z * deviation, "busy_gpm": mean / busy + z * math.sqrt(square)}


def simultaneous_use(row):
    groups = groups_of(row)
    sums = flows_of(groups)
    mean, deviation = moments(groups)
    q99 = quantile(sums, 0.99)
    busy = {at: share for at, share in sums.items() if at > 0}
    whole = sum(busy.values())
    return {"busy_count": sum(count * float(p) for count, _, p in groups), "idle_share": sums[0], "mean_gpm": mean, "deviation_gpm": deviation,
            "q50_gpm": quantile(sums, 0.5), "q95_gpm": quantile(sums, 0.95), "q99_gpm": q99, "q999_gpm": quantile(sums, 0.999),
            "q99_busy_gpm": quantile({at: share / whole for at, share in busy.items()}, 0.99),
            "share_at_q99": sum(share for at, share in sums.items() if at <= 1000 * q99 + 0.5)}


def simultaneous_states(row):
    sums = flows_of(groups_of(row))
    at = round(1000 * float(row["flow_gpm"]))
    return {"p": sums[at], "share": sum(share for flow, share in sums.items() if flow <= at)}


def simultaneous_tail(row):
    """The flow and what lies above it, summed from the top: the small numbers keep their digits."""
    groups = groups_of(row)
    if sum(count for count, _, _ in groups) > 2000 and sys.argv[1:] != ["all"]:
        return {}
    sums, above = flows_of(groups), 0.0
    for at in sorted(sums, reverse=True):
        if above + sums[at] > 1 - float(row["quantile"]) + 1e-15:
            return {"flow_gpm": at / 1000, "above": above}
        above += sums[at]


def simultaneous_use_shares(row):
    return {key: value for key, value in simultaneous_use(row).items() if not key.endswith("_gpm")}


if __name__ == "__main__":
    checked = Checked("tests/oracles/chances.py")
    checked.table("binomial", True, binomial, want="log")
    checked.table("hunter_binomial", False, hunter_binomial, "tolerance_gpm", "flow_gpm")
    checked.table("normal_approximation", False, normal_approximation, "tolerance_gpm")
    checked.table("simultaneous_states", False, simultaneous_states)
    checked.table("simultaneous_use", False, simultaneous_use, "tolerance_gpm")
    checked.table("simultaneous_use", False, simultaneous_use_shares, "tolerance_share")
    checked.table("simultaneous_tail", True, simultaneous_tail)
    checked.table("calc", True, lambda row: quantile(flows_of([(12, 2.0, "0.3")]), 0.99) * GPM, want="want")
    checked.end()
