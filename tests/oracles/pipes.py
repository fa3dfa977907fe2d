#!/usr/bin/env python3
"""Friction, water hammer, thermal expansion, flows of outlets and of reducing valves, and DIN 1988-300, apart from the program,
for the rows of tests/reference that name this script. Python's standard library only; density, bulk modulus and
expansion of water from tests/reference/water_iapws.csv.
"""
import math

from rows import FOOT, GPM, INCH, PSI, Checked, number, read

WATER = read("tests/reference/water_iapws.csv")
# Modulus Pa, Poisson's ratio, expansion 1/K: from memory, as in src/physics/material.c.
WALLS = {"copper": (117e9, 0.34, 16.5e-6), "steel": (207e9, 0.30, 11.7e-6)}
# a, b, c of DIN 1988-300:2012-05, by way of a public glossary; the last of DIN 1988-3, b and c from memory.
DIN = {"residential, assisted living, senior residence": (1.48, 0.19, 0.94), "bed wing of hospital": (0.75, 0.44, 0.18),
       "hotel": (0.70, 0.48, 0.13), "school": (0.91, 0.31, 0.38), "office / administration": (0.91, 0.31, 0.38),
       "nursing home": (1.40, 0.14, 0.92), "withdrawn DIN 1988-3 residential, for comparison": (0.682, 0.45, 0.14)}


def water(degc, column):
    """The polynomial through the four nearest degrees."""
    first = min(max(int(degc) - 1, 0), 97)
    total = 0.0
    for i in range(first, first + 4):
        weight = math.prod((degc - j) / (i - j) for j in range(first, first + 4) if j != i)
        total += weight * float(WATER[i][column])
    return total


def friction_factor(reynolds, rough):
    """Colebrook's equation by bisection on 1/sqrt(f)."""
    low, high = 1.0, 100.0
    for _ in range(200):
        x = (low + high) / 2
        high, low = (x, low) if x + 2 * math.log10(rough / 3.7 + 2.51 * x / reynolds) > 0 else (high, x)
    return 1 / x**2


def colebrook(row):
    return friction_factor(number(row["reynolds"]), number(row["relative_roughness"]))


def darcy_pa_per_m(rho, mu, rough, bore, flow_gpm):
    speed = flow_gpm * GPM / (math.pi / 4 * bore**2)
    return friction_factor(rho * speed * bore / mu, rough / bore) / bore * rho * speed**2 / 2


def copper_friction(row):
    return darcy_pa_per_m(999.0, 1.1212e-3, 1.5e-6, number(row["bore_in"]) * INCH, number(row["flow_gpm"])) * 100 * FOOT / PSI


# ---- expansion ----

def tank(expanded, line_psig, limit_psig, air_psi):
    return expanded / (1 - (line_psig + air_psi) / (limit_psig + air_psi))


def rise_kpa(degc, material, bore_m, wall_m):
    modulus, poisson, wall_alpha = WALLS[material]
    alpha = water(degc, "alpha_v")
    kappa = 1 / water(degc, "K_s") + (degc + 273.15) * alpha**2 / (water(degc, "rho") * 4190)
    return (alpha - 3 * wall_alpha) / (kappa + bore_m / (modulus * wall_m) * (1.25 - poisson)) / 1000


def expansion(row):
    def degc(column):
        return (number(row[column]) - 32) / 1.8 if row["scale"] == "degF" else number(row[column])

    line, limit, air = (number(row[key]) for key in ("line_psig", "limit_psig", "air_psi"))
    what = row["quantity"]
    if what == "tank_gal":
        return tank(number(row["expanded_gal"]), line, limit, air)
    if what == "specific_volume":
        return 0.45359237 / 0.0283168465920 / water(degc("cold"), "rho")
    if what == "rise":
        return rise_kpa(degc("cold"), row["material"], number(row["bore_mm"]) / 1000, number(row["wall_mm"]) / 1000)
    ratio = water(degc("cold"), "rho") / water(degc("hot"), "rho")
    if what == "ratio":
        return ratio
    pushed = number(row["volume_gal"]) * (ratio - 1)
    return pushed if what == "expanded_gal" else tank(pushed, line, limit, air)


# ---- water hammer ----

def wave_speed(bulk, rho, modulus, bore, wall):
    return math.sqrt(bulk / rho) / math.sqrt(1 + bulk / modulus * bore / wall)


def surge(row):
    rho = number(row["density_kg_m3"])
    if row["quantity"] == "speed":
        return wave_speed(number(row["bulk_modulus_pa"]), rho, *(number(row[key]) for key in ("modulus_pa", "bore_mm", "wall_mm")))
    rise = rho * number(row["wave_speed_m_s"]) * number(row["change_m_s"])
    return rise / 1000 if row["quantity"] == "rise_kpa" else rise / rho / 9.80665


# ---- flows ----

def parallel_split(row):
    """Outlet pressure at which the flows of one or two valves sum up to what is drawn, by bisection."""
    inlet, drawn = number(row["inlet_bar"]), number(row["flow_m3h"])
    valves = [tuple(number(row[f"{key}{i}_{unit}"]) for key, unit in (("kv", "m3h"), ("set", "bar"), ("band", "bar"))) for i in (1, 2)]
    valves = [valve for valve in valves if not math.isnan(valve[0])]

    def flows(outlet):
        return [kv * min(max((at - outlet) / band, 0.0), 1.0) * math.sqrt(inlet - outlet) for kv, at, band in valves]

    low, high = 0.0, inlet
    for _ in range(200):
        outlet = (low + high) / 2
        low, high = (outlet, high) if sum(flows(outlet)) > drawn else (low, outlet)
    found = dict(zip(("flow1_m3h", "flow2_m3h"), flows(outlet)))
    return dict(found, outlet_bar=outlet)


def outlet_pressure(row):
    flow, at, to = (number(row[key]) for key in ("flow_gpm", "at_psi", "to_psi"))
    if row["regulated"] == "yes":
        at, to = min(at, 20.0), min(to, 20.0)
    return flow * math.sqrt(to / at)


def din1988(row):
    a, b, c = DIN[row["use"]]
    return a * number(row["sum_lps"]) ** b - c


def calc(row):
    what = row["arguments"].split("|")[0]
    if what == "expansion-tank":
        pushed = 80 * 231 * INCH**3 * (water(10, "rho") / water(60, "rho") - 1)
        return pushed if row["result"] == "expanded_m3" else tank(pushed, 60, 135, 14.696)
    if what == "closed-rise":
        return 1000 * rise_kpa(50, "copper", 0.026035, 0.00127)
    if what == "friction":
        return 100 * FOOT * darcy_pa_per_m(999.0128, water(15.5556, "mu"), 1.5e-6, 0.026035, 20.58)
    if what == "parallel-split":
        keys = ("inlet_bar", "flow_m3h", "kv1_m3h", "set1_bar", "band1_bar", "kv2_m3h", "set2_bar", "band2_bar")
        return 1e5 * parallel_split(dict(zip(keys, "8 0.5 1.6 3.8 1.2 6.3 3.5 1.2".split())))["outlet_bar"]
    if what == "strainer":
        loss = lambda open_share: (1 - open_share**2) / open_share**2
        return loss(0.363 / 2) / loss(0.363)
    if what == "wave-speed":
        return wave_speed(2.1548e9, 999.203, 117e9, 26.035, 1.27)
    if what == "velocity":
        return 15 * GPM / (math.pi / 4 * 0.026035**2)
    if what == "friction-factor":
        return 64 / 128
    if what == "simultaneous-use":
        return 0.7**12
    return 999.2 * 1251.19 * 2


if __name__ == "__main__":
    checked = Checked("tests/oracles/pipes.py")
    checked.table("colebrook", True, colebrook, want="friction_factor")
    checked.table("copper_friction", True, copper_friction, want="loss_psi_per_100ft")
    checked.table("expansion", True, expansion)
    checked.table("surge", False, surge)
    checked.table("parallel_split", False, parallel_split)
    checked.table("outlet_pressure", False, outlet_pressure, want="expected_gpm")
    checked.table("din1988", False, din1988, want="flow_lps")
    checked.table("calc", True, calc, want="want")
    checked.end()
