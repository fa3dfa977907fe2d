#!/usr/bin/env python3
"""The reference building of docs/theory/pulse.md apart from the program: 40 flats, 92 people, uses alone.

Closed forms of every hour, percentiles of the day by Fourier transform on a grid of a fifth of a leak (flows laid
on it by the chances between midpoints), and 200 days simulated second by second. Python's standard library
only. Prints tests/reference/pulse_day.csv (argument: exact) or simulated_day.csv (argument: simulated).
"""
import cmath
import csv
import math
import random
import sys

PEOPLE, HOMES = 92, 40
LEAK_SHARE, LEAK_LPS = 0.05, 10 / 3600


def rows(path):
    with open(path, encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def number(text):
    return float(text) if text else 0.0


uses = [
    tuple(number(row[key]) for key in ("events_per_day", "dur_mean_s", "dur_ln_sigma", "flow_mean_lps", "flow_ln_sigma"))
    for row in rows("data/enduse_by_sa.csv")
    if row["set"] == "quell default dwelling" and row["response"] != "leak"
]
shape = next(
    [float(row["h%02d" % h]) for h in range(24)]
    for row in rows("data/diurnal_by_sa.csv")
    if row["profile"] == "apartment_measured_ES" and row["day"] == "weekday"
)
rate = [PEOPLE * use[0] / 86400 for use in uses]
busy = sum(r * use[1] for r, use in zip(rate, uses))
mean = sum(r * use[1] * use[3] for r, use in zip(rate, uses))
square = sum(r * use[1] * use[3] ** 2 * math.exp(use[4] ** 2) for r, use in zip(rate, uses))


def fourier(values, inverse=False):
    count = len(values)
    if count == 1:
        return values
    even, odd = fourier(values[::2], inverse), fourier(values[1::2], inverse)
    sign = 1 if inverse else -1
    turned = [cmath.exp(sign * 2j * math.pi * k / count) * odd[k] for k in range(count // 2)]
    return [e + t for e, t in zip(even, turned)] + [e - t for e, t in zip(even, turned)]


def below(flow, mu, sigma):
    if flow <= 0:
        return 0.0
    if sigma == 0:
        return 1.0 if flow >= mu else 0.0
    return 0.5 * math.erfc(-(math.log(flow / mu) / sigma + sigma / 2) / math.sqrt(2))


def exact(step=LEAK_LPS / 5, count=1 << 13):
    single = [0.0] * count
    for r, use in zip(rate, uses):
        weight = r * use[1] / busy
        for j in range(1, count):
            low = 0.0 if j == 1 else (j - 0.5) * step
            single[j] += weight * (below((j + 0.5) * step, use[3], use[4]) - below(low, use[3], use[4]))
    at = fourier([complex(p) for p in single])
    leak = [
        (1 - LEAK_SHARE + LEAK_SHARE * cmath.exp(-2j * math.pi * k * LEAK_LPS / step / count)) ** HOMES
        if k <= count // 2
        else (1 - LEAK_SHARE + LEAK_SHARE * cmath.exp(2j * math.pi * (count - k) * LEAK_LPS / step / count)) ** HOMES
        for k in range(count)
    ]
    day = [sum(cmath.exp(busy * m * (a - 1)) for m in shape) / 24 * b for a, b in zip(at, leak)]
    p = [value.real / count for value in fourier(day, True)]
    print("# The reference building: 40 flats, 92 persons, weekday, uses alone; a home in 20 leaks 10 L/h. at: hour of the day, or share of the time. Made by tests/oracles/pulse_day.py.")
    print("case,source,known,tolerance,quantity,at,value")
    hand = '"moments of Poisson rectangles, 40 flats, 92 persons, default dwelling set: tests/oracles/pulse_day.py",OWN'
    for h in range(24):
        for name, value in (
            ("busy_count", busy * shape[h]),
            ("mean_lps", mean * shape[h]),
            ("deviation_lps", math.sqrt(square * shape[h])),
            ("none_share", math.exp(-busy * shape[h])),
        ):
            print(f"hour {h:02d},{hand},1e-6,{name},{h},{value:.7f}")
    none = sum(math.exp(-busy * m) for m in shape) / 24
    print(f'"day, nobody draws",{hand},1e-6,day_none_share,,{none:.7f}')
    print(f'"day, nothing flows",{hand},1e-5,idle_share,,{none * (1 - LEAK_SHARE) ** HOMES:.7f}')
    print(f'"day, mean",{hand},1e-5,day_mean_lps,,{mean + HOMES * LEAK_SHARE * LEAK_LPS:.7f}')
    for share in (0.5, 0.75, 0.9, 0.95, 0.99, 0.995, 0.999, 0.9999):
        total, j = 0.0, 0
        while total + p[j] < share:
            total += p[j]
            j += 1
        print(f'day {share},"by Fourier transform on a grid of {step:.5f} L/s, flows laid on it in another way than ours; the program\'s grid of 0.002 L/s is off by 0.001",OWN,0.0016,quantile_lps,{share},{j * step:.4f}')


def one_day(draw, running):
    change = running + [0] * 86400
    for h in range(24):
        for r, use in zip(rate, uses):
            wait = draw.expovariate(1.0)
            until = r * shape[h] * 3600
            while wait < until:
                start = h * 3600 + draw.random() * 3600
                wait += draw.expovariate(1.0)
                lasts = use[1] if use[2] == 0 else use[1] * math.exp(draw.gauss(0, use[2]) - use[2] ** 2 / 2)
                flow = use[3] if use[4] == 0 else use[3] * math.exp(draw.gauss(0, use[4]) - use[4] ** 2 / 2)
                first = int(start)
                last = min(int(start + lasts), 2 * 86400 - 1)
                change[first] += flow
                change[last] -= flow
    return change


def simulated(days=200):
    draw = random.Random(20)
    running, level = [0.0] * 86400, 0.0
    windows = (60, 300, 600)
    figures = {key: [] for key in (0.5, 0.9, 0.95, 0.99, 0.999, 1) + windows}
    for day in range(days + 1):
        change = one_day(draw, running)
        leak = LEAK_LPS * sum(draw.random() < LEAK_SHARE for _ in range(HOMES))
        flow, sums = [], [0.0]
        for s in range(86400):
            level += change[s]
            flow.append(max(level, 0.0) + leak)
            sums.append(sums[-1] + flow[-1])
        running = change[86400:]
        if day == 0:
            continue
        for window in windows:
            figures[window].append(max(sums[s + window] - sums[s] for s in range(86400 - window + 1)) / window)
        flow.sort()
        for share in (0.5, 0.9, 0.95, 0.99, 0.999, 1):
            figures[share].append(flow[min(math.ceil(share * 86400), 86400) - 1])
    print("# 40 flats, 92 people, a home in 20 leaks 10 L/h: 200 days simulated apart from the program by tests/oracles/pulse_day.py. deviation_lps: from day to day. tolerance_errors: of the mean, in standard errors of both means together; tolerance_deviation: of the deviation, relative.")
    print("case,source,known,quantity,at,days,value_lps,deviation_lps,tolerance_errors,tolerance_deviation")
    for key, values in figures.items():
        middle = sum(values) / days
        deviation = math.sqrt(sum((value - middle) ** 2 for value in values) / (days - 1))
        kind = "peak" if key in windows else "quantile"
        print(f"{kind} {key},tests/oracles/pulse_day.py,OWN,{kind},{key},{days},{middle:.4f},{deviation:.4f},3,0.25")


if __name__ == "__main__":
    exact() if sys.argv[1:] == ["exact"] else simulated()
