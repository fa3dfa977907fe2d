#!/usr/bin/env python3
"""Cavitation, choke, sizing and noise of valves apart from the program, for the rows of tests/reference that name this
script. Python's standard library only. The formulas are those of IEC 60534-2-1 and 60534-8-4 as open libraries
carry them (docs/theory/sizing.md, noise.md), the split over stages and the stable flow our own derivation.
"""
import math

from rows import ATMOSPHERE, GPM, PSI, Checked, number

CENTRES = [12.5, 16, 20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000,
           2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000]
WEIGHTS = [-63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2,
           -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3]
VAPOUR_60F, CRITICAL = 1767.744231, 22.064e6
CV_PER_KV = 1.156099


def lg(x):
    return 10 * math.log10(x)


# ---- choke and sizing ----

def ff(vapour_pa, critical_pa=CRITICAL):
    return 0.96 - 0.28 * math.sqrt(vapour_pa / critical_pa)


def choked_drop(inlet_pa, vapour_pa, fl, critical_pa=CRITICAL):
    return fl * fl * (inlet_pa - ff(vapour_pa, critical_pa) * vapour_pa)


def choke(row):
    inlet_pa, vapour_pa, fl = (number(row[key]) for key in ("inlet_pa", "vapour_pressure_pa", "fl"))
    return ff(vapour_pa) if row["quantity"] == "ff" else choked_drop(inlet_pa, vapour_pa, fl)


def reducers(kv, bore, pipe_in, pipe_out, fl):
    """Loss coefficients and the factors FP and FLP at a Kv, bores in mm."""
    xi = {"xi1": 0.5 * (1 - (bore / pipe_in) ** 2) ** 2, "xi2": (1 - (bore / pipe_out) ** 2) ** 2,
          "xib1": 1 - (bore / pipe_in) ** 4, "xib2": 1 - (bore / pipe_out) ** 4}
    total = xi["xi1"] + xi["xi2"] + xi["xib1"] - xi["xib2"]
    square = (kv / bore**2) ** 2 / 1.6e-3
    xi["fp"] = 1 / math.sqrt(1 + total * square)
    xi["flp"] = fl / math.sqrt(1 + fl * fl * (xi["xi1"] + xi["xib1"]) * square)
    return xi


def flow_through(kv, inlet_pa, outlet_pa, vapour_pa, critical_pa, fl, relative, bores):
    drop = inlet_pa - outlet_pa
    found = {"fp": 1.0, "flp": fl}
    if not any(math.isnan(bore) for bore in bores):
        found = reducers(kv, *bores, fl)
    found["choked_drop_pa"] = (found["flp"] / found["fp"]) ** 2 * (inlet_pa - ff(vapour_pa, critical_pa) * vapour_pa)
    found["flow"] = kv * found["fp"] * math.sqrt(min(drop, found["choked_drop_pa"]) / 1e5 / relative)
    return found


def sizing_case(flow_m3h, inlet_pa, outlet_pa, vapour_pa, critical_pa, fl, relative, bores):
    """Kv by bisection on the flow through it, and what goes with it."""
    low, high = 1e-6, 1e4
    for _ in range(200):
        kv = math.sqrt(low * high)
        found = flow_through(kv, inlet_pa, outlet_pa, vapour_pa, critical_pa, fl, relative, bores)
        low, high = (kv, high) if found["flow"] < flow_m3h else (low, kv)
    found["kv"] = kv
    return found


def sizing(row):
    keys = ("flow_m3h", "inlet_pa", "outlet_pa", "vapour_pressure_pa", "critical_pressure_pa", "fl", "relative_density")
    return sizing_case(*(number(row[key]) for key in keys), [number(row[key]) for key in ("bore_mm", "in_mm", "out_mm")])[row["quantity"]]


# ---- cavitation ----

def xfz_of(kv, fl, fd):
    return 0.90 / math.sqrt(1 + 3 * fd * math.sqrt(kv / fl))


def cavitation(row):
    inlet_pa, outlet_pa, vapour_pa, kv, fl, fd = (
        number(row[key]) for key in ("inlet_pa", "outlet_pa", "vapour_pressure_pa", "kv_m3h", "fl", "fd"))
    xf = (inlet_pa - outlet_pa) / (inlet_pa - vapour_pa)
    xfz = xfz_of(kv, fl, fd)
    return {"xf": xf, "sigma": 1 / xf, "xfz": xfz, "xfzp1": xfz * (6e5 / inlet_pa) ** 0.125}[row["quantity"]]


def stage_split(row):
    """The margin that all stages share, by bisection; equal trims count as 1, for only products of both matter."""
    vapour_pa = 1767.744
    inlet = number(row["inlet_psi"]) * PSI + ATMOSPHERE - vapour_pa
    outlet = number(row["outlet_psi"]) * PSI + ATMOSPHERE - vapour_pa
    onsets = [number(row[key]) for key in ("xfz_1", "xfz_2")]
    onsets = [0.5, 0.5] if math.isnan(onsets[0]) else onsets

    def behind(margin):
        at, passed = inlet, []
        for onset in onsets:
            here = onset * (6e5 / (at + vapour_pa)) ** 0.125 if float(row["scaled"]) else onset
            at *= max(1 - margin * here, 1e-9)
            passed.append(at)
        return passed

    low, high = 0.0, 10.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if behind(middle)[-1] > outlet else (low, middle)
    return (behind(low)[0] + vapour_pa - ATMOSPHERE) / PSI


def stable_flow(row):
    def measure(drop_bar, outlet_bar):
        return math.sqrt(drop_bar) / (1 / drop_bar + 1 / outlet_bar)

    there = measure(number(row["reference_drop_bar"]), number(row["reference_outlet_bar"]))
    return measure(number(row["drop_bar"]), number(row["outlet_bar"])) / there


# ---- noise ----

ANNEX = {"p1": 1e6, "pv": 2320.0, "rho": 997.0, "cl": 1400.0, "c": 90.0, "fd": 0.42, "fl": 0.92, "xfz": math.nan, "d": 0.1, "do": 0.1,
         "di": 0.1071, "tp": 0.0036, "rhop": 7800.0, "cp": 5000.0, "rho0": 1.293, "c0": 343.0}
BUILDING = {"p1": 1135538.594, "pv": VAPOUR_60F, "rho": 999.4963646, "cl": 1470.201705, "fd": 0.46, "fl": 0.9, "d": 0.0254,
            "di": 0.026035, "tp": 0.00127, "rhop": 8940.0, "cp": 3600.0, "rho0": 1.2, "c0": 343.0}


def noise(v, mass_kg_s, p2, edition):
    n = {"xf": (v["p1"] - p2) / (v["p1"] - v["pv"])}
    n["critical_drop_pa"] = min(v["p1"] - p2, v["fl"] ** 2 * (v["p1"] - v["pv"]))
    n["xfz"] = xfz_of(v["c"] / 1.17, v["fl"], v["fd"]) if math.isnan(v["xfz"]) else v["xfz"]
    n["xfzp1"] = n["xfz"] * (6e5 / v["p1"]) ** 0.125
    n["jet_m"] = 0.0046 * v["fd"] * math.sqrt(v["c"] * v["fl"])
    n["jet_velocity_m_s"] = math.sqrt(2 * n["critical_drop_pa"] / v["rho"]) / v["fl"]
    n["stream_power_w"] = 0.5 * mass_kg_s * n["jet_velocity_m_s"] ** 2 * v["fl"] ** 2
    eta = (10**-4.6 if edition == 2015 else 1e-4) * n["jet_velocity_m_s"] / v["cl"]
    over = n["xf"] - n["xfzp1"]
    etac = 0.0
    if over > 0:
        etac = (0.32 * eta * math.sqrt((v["p1"] - p2) / n["critical_drop_pa"] / n["xfzp1"]) * math.exp(5 * n["xfzp1"])
                * math.sqrt((1 - n["xfzp1"]) / (1 - n["xf"])) * (n["xf"] / n["xfzp1"]) ** 5 * over**1.5)
    n["efficiency_turbulent"], n["efficiency_cavitating"] = eta, etac
    n["sound_power_w"] = (eta + etac) * n["stream_power_w"] * (1.0 if edition == 2015 else 0.25)
    n["inside_db"] = lg(3.2e9 * n["sound_power_w"] * v["rho"] * v["cl"] / v["di"] ** 2)
    n["strouhal"] = (0.036 * v["fl"] ** 2 * v["c"] * v["fd"] ** 0.75 / (1.17 * n["xfzp1"] ** 1.5 * v["d"] * v["do"])
                     * (v["p1"] - v["pv"]) ** -0.57)
    turbulent = n["peak_turbulent_hz"] = n["strouhal"] * n["jet_velocity_m_s"] / n["jet_m"]
    cavitating = 6 * turbulent * ((1 - n["xf"]) / (1 - n["xfzp1"])) ** 2 * (n["xfzp1"] / n["xf"]) ** 2.5
    n["peak_cavitating_hz"] = cavitating
    n["ring_hz"] = v["cp"] / (math.pi * v["di"])
    n["ring_loss_db"] = -10 - lg(v["cp"] * v["rhop"] * v["tp"] / (v["c0"] * v["rho0"] * v["di"]))
    n["spread_db"] = lg((v["di"] + 2 * v["tp"] + 2) / (v["di"] + 2 * v["tp"]))

    def slope(f):
        return -2 * lg(n["ring_hz"] / f + (f / n["ring_hz"]) ** 1.5)

    n["peak_loss_db"] = slope(turbulent)
    n["loss_turbulent_db"] = n["ring_loss_db"] + slope(turbulent)
    kt, kc = (8.0, 9.0) if edition == 2015 else (3.1, 3.5)
    bands, energy = {}, 0.0
    for f, weight in zip(CENTRES, WEIGHTS):
        ft = -lg((f / turbulent) ** 3 / 4 + turbulent / f) - kt
        fc = -lg((f / cavitating) ** 1.5 / 4 + (cavitating / f) ** 1.5) - kc
        share = eta / (eta + etac)
        inside = n["inside_db"] + lg(share * 10 ** (ft / 10) + (1 - share) * 10 ** (fc / 10))
        loss = n["ring_loss_db"] + slope(f)
        outside = inside + loss - n["spread_db"]
        bands[f] = {"turbulent_db": ft, "cavitating_db": fc, "inside_db": inside, "loss_db": loss, "outside_db": outside, "weight_db": weight}
        n[f"outside_{f:g}_db"] = outside
        energy += 10 ** ((outside + weight) / 10)
    if edition == 2015:
        n["level_dba"] = lg(energy)
    else:
        loss = n["loss_turbulent_db"]
        if over > 0:
            share, least = etac / (eta + etac), turbulent**2 / (250 * cavitating**1.5)
            share = max(share, least) if over < 0.1 else share
            loss = n["loss_cavitating_db"] = loss + lg(250 * cavitating**1.5 / turbulent**2 * share)
        n["level_dba"] = n["inside_db"] + loss - n["spread_db"]
    n["bands"] = bands
    return n


def annex(edition):
    return lambda row: noise(ANNEX, number(row["mass_flow_kg_s"]), number(row["outlet_pa"]), edition)[row["quantity"]]


def noise_band(row):
    found = noise(ANNEX, number(row["mass_flow_kg_s"]), number(row["outlet_pa"]), int(row["edition"]))
    return found["bands"][number(row["centre_hz"])]


def building(outlet_psig, cv, xfz, seat_m):
    mass_kg_s, p2 = 0.9458729087, BUILDING["p1"] - (150 - outlet_psig) * PSI
    if math.isnan(cv):
        drop = min(BUILDING["p1"] - p2, choked_drop(BUILDING["p1"], VAPOUR_60F, 0.9))
        cv = mass_kg_s / 999.4963646 * 3600 * math.sqrt(999.4963646 / 999.1033 / (drop / 1e5)) * CV_PER_KV
    return noise(dict(BUILDING, c=cv, xfz=xfz, do=seat_m), mass_kg_s, p2, 2015)


def noise_building(row):
    return building(*(number(row[key]) for key in ("outlet_psig", "cv", "xfz", "seat_m")))[row["quantity"]]


def calc(row):
    asked, what = row["arguments"], row["result"]
    if asked.startswith("noise"):
        return building(50, 1.500295259, math.nan, 0.0254)["level_dba"]
    if what == "ff":
        return ff(VAPOUR_60F)
    inlet, outlet = (300, 60) if "300 psi" in asked else (150, 50)
    if what == "ratio_gauge":
        return inlet / outlet
    inlet_pa, outlet_pa = inlet * PSI + ATMOSPHERE, outlet * PSI + ATMOSPHERE
    if what == "ratio_absolute":
        return inlet_pa / outlet_pa
    if what == "xf":
        return (inlet_pa - outlet_pa) / (inlet_pa - VAPOUR_60F)
    if what == "intermediate_pa_gauge":
        return math.sqrt((inlet_pa - VAPOUR_60F) * (outlet_pa - VAPOUR_60F)) + VAPOUR_60F - ATMOSPHERE
    if "15 gpm" in asked:
        relative = 999.4963646 / 999.1033  # water of 60 degF at the inlet
        return sizing_case(15 * GPM * 3600, inlet_pa, outlet_pa, VAPOUR_60F, CRITICAL, 0.9, relative, [math.nan])["kv"]
    bores = [80.0, 100.0, 90.0]
    case = (680e3, 220e3, 70.1e3, 22120e3, 0.9, 965.4 / 999.10329075702327, bores)
    if what == "flow_m3s":
        return flow_through(177.879807, *case)["flow"] / 3600
    return sizing_case(360.0, *case)[{"kv_m3h": "kv"}.get(what, what)]


if __name__ == "__main__":
    checked = Checked("tests/oracles/valves.py")
    checked.table("choke", True, choke)
    checked.table("sizing", True, sizing)
    checked.table("cavitation", True, cavitation)
    checked.table("stage_split", False, stage_split, "tolerance_psi", "between_psi")
    checked.table("stable_flow", False, stable_flow, want="flow_ratio")
    checked.table("noise_2005", False, annex(2005))
    checked.table("noise_2015", False, annex(2015))
    checked.table("noise_bands", False, noise_band)
    checked.table("noise_building", False, noise_building)
    checked.table("calc", True, calc, want="want")
    checked.end()
