#!/usr/bin/env python3
"""Writes tests/data/logs/portal/*, sixty logs of the shapes that portals, loggers and building systems
write, and tests/data/logs/portal.csv, their figures. All headers, sites and flows are invented.

The figures come from pandas 1.5.3 and numpy 1.24.2 (Debian 12: apt-get install python3-pandas), from the
numbers as they stand in the file; nothing of quell is used. Run it again to get the same files.
"""
import io
import json
import os

import numpy as np
import pandas as pd

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "data", "logs", "portal")
GAL = 3.785411784e-3
GPM = GAL / 60
UNIT = {"gpm": GPM, "gal": GAL, "L": 1e-3, "m3": 1.0, "L/s": 1e-3, "L/min": 1e-3 / 60, "L/h": 1e-3 / 3600,
        "m3/h": 1 / 3600, "CCF": 100 * 0.3048**3, "ft3": 0.3048**3, "kgal": 1000 * GAL, "MGD": 1e6 * GAL / 86400}
rows_out = []


def flows(count, seed, idle=0.6):
    """gpm of uses that last some rows, three decimals."""
    rng = np.random.RandomState(seed)
    q = np.zeros(count)
    at = 0
    while at < count:
        at += 1 + rng.geometric(1 / 6)
        length = 1 + rng.geometric(1 / 4)
        q[at:at + length] = rng.uniform(0.6, 9) * rng.uniform(0.8, 1.2, len(q[at:at + length]))
        at += length
    return np.round(q, 3)


MINUTE = pd.date_range("2024-07-18 06:00", periods=480, freq="60s")
QUARTER = pd.date_range("2024-07-18 00:00", periods=480, freq="900s")
HOUR = pd.date_range("2024-07-01 00:00", periods=360, freq="3600s")
QM, QQ, QH = flows(480, 1), flows(480, 2), flows(360, 3)


def figures(flow_m3s, length_s, extra_m3=0.0):
    """Mean, idle share, 99 %, greatest and volume of stretches of known flow."""
    table = pd.DataFrame({"q": np.asarray(flow_m3s, float), "t": np.broadcast_to(length_s, len(flow_m3s))})
    table = table.dropna()
    by_flow = table.groupby("q")["t"].sum().sort_index()
    share = by_flow.cumsum() / by_flow.sum()
    volume = (table.q * table.t).sum()
    return {"mean_m3s": volume / table.t.sum(), "idle_share": by_flow.get(0.0, 0.0) / by_flow.sum(),
            "p99_m3s": share.index[np.searchsorted(share.to_numpy(), 0.99 - 1e-12)],
            "max_m3s": table.q.max(), "volume_m3": volume + extra_m3}


def put(name, text, options, kind, figure=None, outcome="ok", notes="", encoding="utf-8"):
    with open(os.path.join(OUT, name), "wb") as file:
        file.write(text.encode(encoding))
    row = {"file": name, "options": options, "outcome": outcome, "kind": kind, "notes": notes}
    for key in ("mean_m3s", "idle_share", "p99_m3s", "max_m3s", "volume_m3"):
        row[key] = "" if figure is None or np.isnan(figure[key]) else repr(float(figure[key]))
    rows_out.append(row)


def table(header, stamps, *columns, sep=",", end="\n"):
    lines = [] if header is None else [header]
    lines += [sep.join(map(str, cells)) for cells in zip(stamps, *columns)]
    return end.join(lines) + end


def text(values, places=3, mark="."):
    return [f"{v:.{places}f}".replace(".", mark) for v in values]


def rounded(values, places):
    return np.array([float(f"{v:.{places}f}") for v in values])


def stamps(index, form):
    return list(index.strftime(form))


def flow_log(name, header, form, index, q, unit, options="", places=3, mark=".", sep=",", reverse=False,
             encoding="utf-8", end="\n", above="", notes=""):
    values = q * GPM / UNIT[unit]
    length = (index[1] - index[0]).total_seconds()
    lines = table(None, stamps(index, form), text(values, places, mark), sep=sep, end=end).split(end)[:-1]
    lines = lines[::-1] if reverse else lines
    put(name, above + header + end + end.join(lines) + end, options, "flow",
        figures(rounded(values, places) * UNIT[unit], length), encoding=encoding, notes=notes)


def volume_log(name, header, form, index, q, unit, options="", places=3, mark=".", sep=",", reverse=False, above=""):
    length = (index[1] - index[0]).total_seconds()
    values = rounded(q * GPM * length / UNIT[unit], places)
    lines = table(None, stamps(index, form), text(values, places, mark), sep=sep).split("\n")[:-1]
    lines = lines[::-1] if reverse else lines
    put(name, above + header + "\n" + "\n".join(lines) + "\n", options, "volume",
        figures(values * UNIT[unit] / length, length))


def register(index, q, unit, start, places):
    length = (index[1] - index[0]).total_seconds()
    return rounded(start + np.concatenate([[0], np.cumsum(q[1:] * GPM * length / UNIT[unit])]), places), length


def register_log(name, header, form, index, q, unit, start, options="", places=3, mark=".", sep=",", reverse=False,
                 shown=None, notes=""):
    read, length = register(index, q, unit, start, places)
    cells = text(read, places, mark) if shown is None else [shown(v) for v in read]
    lines = table(None, stamps(index, form), cells, sep=sep).split("\n")[:-1]
    lines = lines[::-1] if reverse else lines
    put(name, header + "\n" + "\n".join(lines) + "\n", options, "register",
        figures(np.diff(read) * UNIT[unit] / length, length), notes=notes)


ISO = "%Y-%m-%d %H:%M:%S"
os.makedirs(OUT, exist_ok=True)

# -- flows, as portals and building systems write them
flow_log("gpm_alone.csv", "Timestamp,GPM", ISO, MINUTE, QM, "gpm")
flow_log("second_line.csv", "Time,Flow\n,gpm", ISO, MINUTE, QM, "gpm")
flow_log("second_line_brackets.csv", "Recorded At;Avg Flow\n;[L/min]", ISO, MINUTE, QM, "L/min", sep=";")
flow_log("month_names.csv", "Date Time,Flow (gpm)", "%d-%b-%Y %H:%M", MINUTE, QM, "gpm")
flow_log("month_first_names.csv", "Local Time\tFlow (gpm)", "%b %d %Y %H:%M:%S", MINUTE, QM, "gpm", sep="\t")
flow_log("newest_first.csv", "Reading Time,Flow (gpm)", ISO, MINUTE, QM, "gpm", reverse=True, notes="newest-first")
flow_log("newest_first_am_pm.csv", "Reading Time,Flow (gpm)", "%m/%d/%Y %I:%M %p", MINUTE, QM, "gpm", reverse=True,
         notes="newest-first")
flow_log("am_pm.csv", "Time,Flow Rate (L/s)", "%m/%d/%Y %I:%M:%S %p", MINUTE, QM, "L/s", places=5)
flow_log("german.csv", "Zeitstempel;Durchfluss (L/min)", "%d.%m.%Y %H:%M", MINUTE, QM, "L/min", mark=",", sep=";")
flow_log("german_latin1.csv", "Zeitstempel;Durchflu\u00df (m\u00b3/h)", "%d.%m.%Y %H:%M", MINUTE, QM, "m3/h", mark=",", sep=";",
         places=5, encoding="latin-1")
flow_log("spanish.csv", "Fecha y hora;Caudal (L/h)", "%d/%m/%Y %H:%M", MINUTE, QM, "L/h", mark=",", sep=";", places=1)
flow_log("french.csv", "Horodatage\tD\u00e9bit (m3/h)", "%d/%m/%Y %H:%M", MINUTE, QM, "m3/h", mark=",", sep="\t", places=5)
flow_log("utf16_little.csv", "\ufeffTime,Flow (gpm)", ISO, MINUTE, QM, "gpm", encoding="utf-16-le")
flow_log("utf16_big.csv", "\ufeffTime\tFlow (gpm)", ISO, MINUTE, QM, "gpm", encoding="utf-16-be", sep="\t", end="\r\n")
flow_log("bom_crlf.csv", "\ufeffTime,Flow (gpm)", ISO, MINUTE, QM, "gpm", end="\r\n")
flow_log("blank_lines.csv", "Time,Flow (gpm)", ISO, MINUTE, QM, "gpm", end="\n\n")
flow_log("titles.csv", "DateTime,Flow_gpm", ISO, MINUTE, QM, "gpm", above="Riverbend Court\nRiser 2, exported 2024-07-19\n\n")
flow_log("comments.csv", "Time,Flow (gpm)", ISO, MINUTE, QM, "gpm", above="# site: Maple House\n# tz: local\n")
flow_log("two_digit_year.csv", "Time,Flow (gpm)", "%m/%d/%y %H:%M", MINUTE, QM, "gpm", options="order=month")
flow_log("compact.csv", "Timestamp,Flow (gpm)", "%Y%m%d%H%M%S", MINUTE, QM, "gpm")
flow_log("zulu.csv", "time_utc,flow_gpm", "%Y-%m-%dT%H:%M:%SZ", MINUTE, QM, "gpm", options="zone=America/Chicago")
flow_log("offset.csv", "time,flow_gpm", "%Y-%m-%dT%H:%M:%S-05:00", MINUTE, QM, "gpm")
flow_log("unix.csv", "ts,flow (gpm)", "%s", MINUTE.tz_localize("UTC"), QM, "gpm")
flow_log("million_gallons.csv", "Date Time,Flow (MGD)", ISO, MINUTE, QM, "MGD", places=6)
put("unix_ms.csv", table("ts,flow (gpm)", [int(t.timestamp() * 1000) for t in MINUTE.tz_localize("UTC")], text(QM)), "",
    "flow", figures(QM * GPM, 60))
put("date_and_clock.csv", table("Date,Clock,Flow (gpm)", stamps(MINUTE, "%Y-%m-%d"), stamps(MINUTE, "%H%M"), text(QM)), "",
    "flow", figures(QM * GPM, 60))
put("serial_days.csv", table("Date Time,Flow (gpm)", [f"{45491.25 + i / 1440:.6f}" for i in range(480)], text(QM)), "", "flow",
    figures(QM * GPM, 60))
put("quoted.csv", table('"Time","Record","Flow (gpm)","Note"', [f'"{t}"' for t in stamps(MINUTE, ISO)], range(480),
                        [f'"{v}"' for v in text(QM)], ['"a, b"'] * 480), "", "flow", figures(QM * GPM, 60))
put("json_lines.jsonl", "".join(json.dumps({"log_date": t, "value": float(v), "unit": "gpm"}) + "\n"
                                for t, v in zip(stamps(MINUTE, ISO), QM)), "", "flow", figures(QM * GPM, 60))
put("json_newest.jsonl", "".join(json.dumps({"time": t, "flow_gpm": float(v)}) + "\n"
                                 for t, v in list(zip(stamps(MINUTE, ISO), QM))[::-1]), "", "flow",
    figures(QM * GPM, 60), notes="newest-first")

# -- volumes of an interval
volume_log("hourly_gallons.csv", "Account,Read Date Time,Usage (gal)".replace("Account,", ""), ISO, HOUR, QH, "gal")
volume_log("hourly_newest.csv", "Reading Date,Consumption (gal)", "%m/%d/%Y %H:%M", HOUR, QH, "gal", reverse=True)
volume_log("ccf.csv", "Read Time,Usage (CCF)", ISO, HOUR, QH, "CCF", places=4)
volume_log("kgal.csv", "Read Time,Interval Usage (kgal)", ISO, HOUR, QH, "kgal", places=4)
volume_log("quarter_cubic_feet.csv", "Read Time,Water Use (ft3)", ISO, QUARTER, QQ, "ft3")
volume_log("verbrauch.csv", "Datum Uhrzeit;Verbrauch (L)", "%d.%m.%Y %H:%M", QUARTER, QQ, "L", mark=",", sep=";", places=1)
put("interval_ends.csv", table("Interval Start,Interval End,Usage (gal)", stamps(QUARTER, ISO),
                               stamps(QUARTER + pd.Timedelta("15min"), ISO), text(QQ * 15)), "", "events",
    figures(rounded(QQ * 15, 3) * GAL / 900, 900))

# -- registers
register_log("register_gallons.csv", "Time,Meter Reading (gal)", ISO, MINUTE, QM, "gal", 48120.5)
register_log("register_newest.csv", "Read Time,Register Reading (gal)", ISO, MINUTE, QM, "gal", 48120.5, reverse=True,
             notes="newest-first")
register_log("lectura.csv", "Fecha;Lectura (m3)", "%d/%m/%Y %H:%M", QUARTER, QQ, "m3", 1841.25, mark=",", sep=";", places=4)
register_log("thousands_commas.csv", "Time,Reading (gal)", ISO, MINUTE, QM, "gal", 998120.5, places=1,
             shown=lambda v: f'"{v:,.1f}"')
register_log("thousands_points.csv", "Zeit;Z\u00e4hlerstand (L)", "%d.%m.%Y %H:%M", MINUTE, QM, "L", 4998120.5, places=1, sep=";",
             shown=lambda v: f"{v:,.1f}".replace(",", " ").replace(".", ",").replace(" ", "."))
read, _ = register(MINUTE, QM, "gal", 48120.5, 3)
wrong = read.copy()
wrong[200] += 800
rises = np.diff(read) * GAL / 60
known = rises.copy()
known[199:201] = np.nan
put("wrong_reading.csv", table("Time,Register (gal)", stamps(MINUTE, ISO), text(wrong)), "", "register",
    figures(known, 60, (read[201] - read[199]) * GAL))

# -- pulses
counts = np.round(QM).astype(int)
single = figures(counts * GAL / 60, 60)
put("pulses.csv", "Pulse weight 1 gal/pulse\n" + table("Time,Pulses", stamps(MINUTE, ISO), counts), "stamp=end", "pulses",
    single)
put("pulses_given.csv", table("Zeit;Impulse", stamps(MINUTE, "%d.%m.%Y %H:%M"), counts, sep=";"),
    f"pulse_m3={GAL!r}", "pulses", single)
steady = np.random.RandomState(5).uniform(0.4, 1.0, 2880)
ten = np.diff(np.floor(np.concatenate([[0], np.cumsum(steady)]) / 10)).astype(int)
put("pulses_coarse.csv", "10 gal/pulse\n" + table("Time,Pulses", stamps(pd.date_range("2024-07-18", periods=2880, freq="60s"), ISO),
                                                  ten), "", "pulses",
    {**figures(ten * 10 * GAL / 60, 60), "idle_share": np.nan, "p99_m3s": np.nan}, notes="coarse-step")

# -- several meters, units and quantities
north, south = QM, flows(480, 7)
both = [(t, site, f"{v:.3f}") for t, a, b in zip(stamps(MINUTE, ISO), north, south) for site, v in (("north", a), ("south", b))]
lines = "\n".join(",".join(r) for r in both) + "\n"
put("sites_added.csv", "Time,Wing,Flow (gpm)\n" + lines, "repeated=sum", "flow", figures((north + south) * GPM, 60))
put("sites_chosen.csv", "Time,Wing,Flow (gpm)\n" + lines, "meter_column=Wing;meter=south", "flow", figures(south * GPM, 60))
put("sites.csv", "Time,Wing,Flow (gpm)\n" + lines, "", "flow", outcome="contradiction")
unit = ["gpm"] * 240 + ["L/s"] * 240
values = np.concatenate([QM[:240], rounded(QM[240:] * GPM / 1e-3, 5)])
put("unit_changes.csv", table("Time,Value,Unit", stamps(MINUTE, ISO), [repr(float(v)) for v in values], unit), "", "flow",
    figures(np.concatenate([QM[:240] * GPM, values[240:] * 1e-3]), 60))

# -- uses
starts = [pd.Timestamp("2024-07-18 06:00") + pd.Timedelta(minutes=11 * i) for i in range(60)]
rng = np.random.RandomState(9)
minutes = np.round(rng.uniform(0.5, 8, 60), 1)
gallons = np.round(minutes * rng.uniform(0.8, 4, 60), 2)
flowing = gallons * GAL / (minutes * 60)
span = (starts[-1] - starts[0]).total_seconds() + minutes[-1] * 60
event = figures(np.append(flowing, 0.0), np.append(minutes * 60, span - minutes.sum() * 60))
lines = [f"{t:%Y-%m-%d %H:%M:%S},{m},{g}" for t, m, g in zip(starts, minutes, gallons)]
put("uses.csv", "Start Time,Duration (min),Volume (gal)\n" + "\n".join(lines) + "\n", "kind=events", "events", event)
put("uses_newest.csv", "Start Time,Duration (min),Volume (gal)\n" + "\n".join(lines[::-1]) + "\n", "kind=events", "events", event)

# -- faults
faulty = QM.copy()
cells = text(QM)
for i, word in ((50, ""), (51, "NaN"), (52, "-9999"), (120, "error")):
    cells[i], faulty[i] = word, np.nan
put("faults.csv", table("Time,Flow (gpm)", stamps(MINUTE, ISO), cells), "", "flow", figures(faulty * GPM, 60))
keep = np.r_[0:100, 130:480]
gap = QM.copy()
gap[100:130] = np.nan
put("gap.csv", table("Time,Flow (gpm)", [stamps(MINUTE, ISO)[i] for i in keep], [text(QM)[i] for i in keep]), "", "flow",
    figures(gap * GPM, 60))
twice = np.sort(np.r_[0:480, 40:60])
put("twice.csv", table("Time,Flow (gpm)", [stamps(MINUTE, ISO)[i] for i in twice], [text(QM)[i] for i in twice]), "", "flow",
    figures(QM * GPM, 60))
head = "Time,Flow (gpm)\n"
halves = [table(None, stamps(MINUTE[a:b], ISO), text(QM[a:b])) for a, b in ((320, 480), (0, 160), (160, 320))]
put("joined.csv", head + head.join(halves), "", "flow", figures(QM * GPM, 60), notes="joined")
absurd = QM.copy()
absurd[300] = np.nan
cells = text(QM)
cells[300] = "900.000"
put("absurd_row.csv", table("Time,Flow (gpm)", stamps(MINUTE, ISO), cells), "", "flow", figures(absurd * GPM, 60),
    notes="odd-row")
load = np.r_[QM[:30], np.full(420, 4.0), QM[:30]]
put("steady_load.csv", table("Time,Flow (gpm)", stamps(MINUTE, ISO), text(load, 2)), "", "flow",
    figures(rounded(load, 2) * GPM, 60))

# -- refused: what can be read in two ways
put("twelve_hours.csv", table("Time,Flow (gpm)", stamps(pd.date_range("2024-07-18", periods=1440, freq="60s"), "%Y-%m-%d %I:%M"),
                              text(flows(1440, 11))), "", "flow", outcome="contradiction")
litres = np.round(flows(480, 12) * 227.1)
put("points.csv", table("Zeit;Durchfluss (L/h)", stamps(MINUTE, ISO), [f"{int(v):,}".replace(",", ".") for v in litres], sep=";"),
    "", "flow", outcome="contradiction")
put("two_weights.csv", "meter 2 in, 10 gal/pulse, K = 0.1 gal/pulse\n" + table("Time,Pulses", stamps(MINUTE, ISO), counts), "",
    "pulses", outcome="contradiction")

table_out = pd.DataFrame(rows_out)
table_out.to_csv(os.path.join(OUT, "..", "portal.csv"), index=False)
print(len(rows_out), "logs,", sum(r["outcome"] != "ok" for r in rows_out), "refused")
