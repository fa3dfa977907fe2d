#!/usr/bin/env python3
"""Waves in a pipe from a reservoir to a valve, apart from the program, for the rows of tests/reference/hammer.csv: the textbook's
scheme of characteristics with a fine grid, and a column that parts, wave by wave. Python's standard library only.

    python3 tests/oracles/waves.py          compares
    python3 tests/oracles/waves.py write    prints the table
"""
import math
import sys

from rows import Checked

G = 9.80665
# The example's heads at the valve with its five cells, as the project's reference page has them (own run there, N = 5): what the
# scheme below must give before its fine grid is believed.
FIVE_CELLS = {0.5: 205.086, 1.0: 284.569, 1.1: 285.259, 1.5: 265.106, 2.1: 152.131, 2.6: 93.004, 3.6: 206.828, 4.3: 117.602}


def textbook(cells, until):
    """L 600 m, D 0.5 m, f 0.018, a 1200 m/s, HR 150 m, CdA 0.009 m2, tau = (1 - t/2.1)^1.5: head at the valve by time."""
    length, bore, f, speed, reservoir, opening = 600.0, 0.5, 0.018, 1200.0, 150.0, 0.009
    area = math.pi / 4 * bore**2
    dx = length / cells
    b, r = speed / (G * area), f * dx / (2 * G * bore * area**2)
    flow = math.sqrt(reservoir / (f * length / bore / (2 * G * area**2) + 1 / (2 * G * opening**2)))
    h = [reservoir - i * r * flow**2 for i in range(cells + 1)]
    q = [flow] * (cells + 1)
    heads = [h[-1]]
    for step in range(1, round(until * speed / dx) + 1):
        cp = [h[i] + b * q[i] for i in range(cells)]
        bp = [b + r * abs(q[i]) for i in range(cells)]
        cm = [h[i] - b * q[i] for i in range(1, cells + 1)]
        bm = [b + r * abs(q[i]) for i in range(1, cells + 1)]
        for i in range(1, cells):
            h[i] = (cp[i - 1] * bm[i] + cm[i] * bp[i - 1]) / (bp[i - 1] + bm[i])
            q[i] = (cp[i - 1] - cm[i]) / (bp[i - 1] + bm[i])
        q[0] = (reservoir - cm[0]) / bm[0]
        tau = max(0.0, 1 - step * dx / speed / 2.1) ** 1.5
        c = 2 * G * (opening * tau) ** 2
        q[-1] = -c * bp[-1] / 2 + math.sqrt((c * bp[-1] / 2) ** 2 + c * cp[-1])
        h[-1] = cp[-1] - bp[-1] * q[-1]
        heads.append(h[-1])
    return lambda t: heads[round(t * speed / dx)]


PERIOD, HELD, VAPOUR, IMPEDANCE, STEP = 0.06, 400e3, -99e3, 1.2e6, 1e-3


def parted(speed):
    """Frictionless: 36 m, 1200 m/s, 1000 kg/m3, shut at once at t = 0, 400 kPa held, vapor at -99 kPa gauge. What leaves the
    valve, G, comes back from the reservoir as 2 p_R - G after 2L/a; there p = F while shut, p = p_v while parted. All of it is
    constant between events, so they are followed exactly. Gives stretches (from, to, pressure, room per area in the end), up to
    when water would boil within the pipe too."""
    sent = [(-PERIOD, 0.0, HELD - IMPEDANCE * speed)]  # from, to, G
    t, room, stretches = 0.0, 0.0, []
    while t < 0.6:
        source = next(s for s in sent if s[0] + PERIOD <= t + 1e-12 < s[1] + PERIOD - 1e-12)
        end = source[1] + PERIOD
        f = 2 * HELD - source[2]
        if room <= 0 and f >= VAPOUR:
            pressure, wave = f, f
        else:
            pressure, wave = VAPOUR, 2 * VAPOUR - f
            away = -(f - VAPOUR) / IMPEDANCE
            if room + away * (end - t) < 0:
                end = t - room / away
            room = max(0.0, room + away * (end - t))
            room = 0.0 if room < 1e-15 else room
        sent.append((t, end, wave))
        stretches.append((t, end, pressure, room))
        t = end
    limit = boils(sent)
    return [s for s in stretches if s[1] < limit]


def boils(sent):
    """When the pressure within the pipe, by the waves of both ways, first falls below that of vapor."""

    def wave(t):
        return next((g for begin, end, g in sent if begin <= t < end), None)

    steps = range(1, round(PERIOD / 2 / STEP))
    for i in range(round(0.5 / STEP)):
        t = (i + 0.5) * STEP
        for k in steps:
            g, f = wave(t - k * STEP), 2 * HELD - wave(t + k * STEP - PERIOD)
            if (f + g) / 2 < VAPOUR - 1:
                return t
    return math.inf


def rows():
    fine = textbook(200, 4.4)
    for t in FIVE_CELLS:
        yield {"case": f"reservoir and valve at {t} s", "tolerance": 0.005, "quantity": "head_m", "speed_m_s": "", "time_s": t,
               "expected": round(fine(t), 4)}
    for speed in (0.6, 1.0):
        stretches = parted(speed)
        for begin, end, pressure, _ in stretches:
            if end - begin > 0.004:
                yield {"case": f"parted from {speed} m/s at {(begin + end) / 2:.5f} s", "tolerance": 0.5, "quantity": "pressure_pa",
                       "speed_m_s": speed, "time_s": round((begin + end) / 2, 7), "expected": round(pressure, 3)}
        room = math.pi / 4 * 0.026**2 * max(s[3] for s in stretches)
        yield {"case": f"greatest room from {speed} m/s", "tolerance": 2e-8, "quantity": "room_m3", "speed_m_s": speed,
               "time_s": round(stretches[-1][1], 7), "expected": float(f"{room:.9g}")}


def main():
    columns = ["case", "source", "known", "tolerance", "quantity", "speed_m_s", "time_s", "expected"]
    if sys.argv[1:] == ["write"]:
        print("# Tolerance absolute. A pipe between a reservoir and a valve; inputs in tests/oracles/waves.py and run_hammer.c.")
        print(",".join(columns))
        for row in rows():
            source = "computed apart from the program: tests/oracles/waves.py"
            print(",".join([f'"{row["case"]}"', source, "OWN"] + [f"{row[c]}" for c in columns[3:]]))
        return
    checked = Checked("waves.py")
    coarse = textbook(5, 4.4)
    for t, head in FIVE_CELLS.items():
        checked.value("reference page", {"case": f"five cells, {t} s"}, coarse(t), head, 0.005, False)
    found = {row["case"]: row["expected"] for row in rows()}
    checked.table("hammer", False, lambda row: found[row["case"]])
    checked.end()


main()
