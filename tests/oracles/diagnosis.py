#!/usr/bin/env python3
"""Posteriors, losses and worths of tests by eq. 1 to 4 of docs/theory/diagnosis.md with m = 0, rho = 0.3, from
data/causes.csv, evidence.csv, likelihood.csv alone: python3 tests/oracles/diagnosis.py > tests/reference/diagnosis.csv
The rows agree to all digits with figures that were computed before the program was written, by two others."""
import csv, math, os

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "data")


def table(name):
    with open(os.path.join(ROOT, name)) as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


EVIDENCE = {}
for row in table("evidence.csv"):
    of = EVIDENCE.setdefault(row["evidence"], {"group": row["group"], "minutes": float(row["minutes"]), "outcomes": []})
    of["outcomes"].append((row["answer"], float(row["usual"])))
CAUSES = table("causes.csv")
JUDGED = {(row["cause"], row["evidence"]): [float(p) for p in row["shares"].split()] for row in table("likelihood.csv")}
RHO, CALLBACK = 0.3, 2.5


def share(cause, evidence, outcome):
    names = [o for o, _ in EVIDENCE[evidence]["outcomes"]]
    shares = JUDGED.get((cause, evidence), [p for _, p in EVIDENCE[evidence]["outcomes"]])
    return shares[names.index(outcome)]


def posterior(site, answers):
    causes = [c for c in CAUSES if not c["needs"] or c["needs"] in site]
    weight = {}
    for c in causes:
        groups = {}
        for e, o in answers.items():
            groups.setdefault(EVIDENCE[e]["group"], []).append(math.log(share(c["cause"], e, o)))
        weight[c["cause"]] = math.log(float(c["weight"])) + sum(sum(g) / (1 + RHO * (len(g) - 1)) for g in groups.values())
    most = max(weight.values())
    total = sum(math.exp(w - most) for w in weight.values())
    return {c: math.exp(w - most) / total for c, w in weight.items()}


HOURS = {c["cause"]: float(c["hours"]) for c in CAUSES}


def risk(p):
    def loss(a, c):
        return HOURS[a] if a == c else HOURS[a] + HOURS[c] + (0 if a == "other" else CALLBACK)
    return min((sum(p[c] * loss(a, c) for c in p), a) for a in p)


def entropy(p):
    return -sum(q * math.log2(q) for q in p.values() if q > 0)


def worth(site, answers, evidence):
    now = posterior(site, answers)
    hours, bits = risk(now)[0], entropy(now)
    for o, _ in EVIDENCE[evidence]["outcomes"]:
        chance = sum(now[c] * share(c, evidence, o) for c in now)
        then = posterior(site, {**answers, evidence: o})
        hours -= chance * risk(then)[0]
        bits -= chance * entropy(then)
    return max(hours, 0.0), max(bits, 0.0)


CASES = [
    ("A", "water_heater", "", ["pressure_complaint", "noise_when"]),
    ("B", "water_heater", "sound_kind=chatter_buzz noise_when=low_flow onset=since_install lockup_vs_set=within_5psi", ["low_flow_share", "where_heard"]),
    ("C", "water_heater", "pressure_complaint=too_high relief_drips=yes lockup_vs_set=high", ["time_pattern", "onset"]),
    ("D", "water_heater", "pressure_complaint=too_high relief_drips=yes lockup_vs_set=high creep_10min=gt_5psi", ["onset", "flush_test"]),
    ("E", "water_heater", "pressure_complaint=low_when_running time_pattern=peak_hours onset=gradual lockup_vs_set=within_5psi", ["where_heard", "sound_kind"]),
    ("F", "water_heater branches_ge_2", "pressure_complaint=swings sound_kind=chatter_buzz log_oscillation=slow_0_02_1Hz", ["noise_when", "adjust_response"]),
]
print("# Eq. 1 to 4 of docs/theory/diagnosis.md with m = 0, rho = 0.3: tests/oracles/diagnosis.py, an independent reading of the tables in Python")
print("case,site,answers,what,of,expected")
for name, site, answers, tests in CASES:
    known = dict(a.split("=") for a in answers.split())
    sites = site.split()
    p = posterior(sites, known)
    for cause in sorted(p, key=lambda c: -p[c])[:4]:
        print(f"{name},{site},{answers},posterior,{cause},{p[cause]:.9f}")
    least, action = risk(p)
    print(f"{name},{site},{answers},risk,{action},{least:.9f}")
    for test in tests:
        hours, bits = worth(sites, known, test)
        print(f"{name},{site},{answers},hours,{test},{hours:.9f}")
        print(f"{name},{site},{answers},bits,{test},{bits:.9f}")
