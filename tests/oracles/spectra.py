#!/usr/bin/env python3
"""Transforms and averaged spectra by NumPy and SciPy, for the rows of tests/reference/fourier.csv and spectrum.csv: compares, or with
the argument "print" writes the rows anew. Printed by NumPy 1.24.2 and SciPy 1.10.1 (Debian 12).
"""
import csv
import functools
import os
import sys

import numpy
import scipy.signal

from rows import ROOT, Checked, number

SOURCE = "tests/oracles/spectra.py"
LENGTHS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 15, 17, 26, 34, 97, 98, 128, 143, 1000, 1001, 1009, 2018, 4099, 11025, 22050, 24000,
           44100, 65536]
AVERAGES = [("mean", 4096, 10.0, 1024), ("median", 4096, 10.0, 1024), ("mean", 1001, 250.0, 128), ("median", 1001, 250.0, 128),
            ("mean", 777, 1.0, 777), ("mean", 500, 2.0, 777), ("median", 30000, 22050.0, 2205), ("mean", 30000, 44100.0, 1009),
            ("median", 30000, 44100.0, 1001), ("mean", 5, 1.0, 2)]


@functools.lru_cache(maxsize=2)
def samples(count):
    """A tone in noise, off zero; tests/reference/noisy_tone.h says the same."""
    state, noise = 1, numpy.empty(count)
    for k in range(count):
        state = (1103515245 * state + 12345) % 2**31
        noise[k] = state / 2**31 - 0.5
    return 0.3 + numpy.cos(0.37 * numpy.arange(count, dtype=float)) + noise


@functools.lru_cache(maxsize=2)
def all_bins(count):
    return numpy.fft.rfft(samples(count))


def transform(row):
    value = all_bins(int(row["count"]))[int(row["bin"])]
    return {"re": value.real, "im": value.imag}


def spectrum(row):
    frame = min(int(row["frame"]), int(row["count"]))
    return scipy.signal.welch(samples(int(row["count"])), number(row["rate_hz"]), "hann", frame, average=row["averaging"])[1][int(row["bin"])]


def write(name, columns, rows):
    with open(os.path.join(ROOT, f"tests/reference/{name}.csv"), "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows(rows)


def bins_of(length):
    last = length // 2
    return sorted({0, min(1, last), last // 3, last // 2, max(0, last - 1), last})


def write_all():
    rows = []
    for length in LENGTHS:
        for k in bins_of(length):
            value = transform({"count": length, "bin": k})
            rows.append([f"{length} bin {k}", SOURCE, "OWN", 1e-10 * length, length, k, repr(float(value["re"])), repr(float(value["im"]))])
    write("fourier", ["case", "source", "known", "tolerance", "count", "bin", "re", "im"], rows)
    rows = []
    for averaging, count, rate, frame in AVERAGES:
        for k in bins_of(min(frame, count)):
            row = {"averaging": averaging, "count": count, "rate_hz": str(rate), "frame": frame, "bin": k}
            rows.append([f"{averaging} {count}/{frame} bin {k}", SOURCE, "OWN", 1e-9, averaging, count, rate, frame, k, repr(float(spectrum(row)))])
    write("spectrum", ["case", "source", "known", "tolerance", "averaging", "count", "rate_hz", "frame", "bin", "expected"], rows)


if sys.argv[1:] == ["print"]:
    write_all()
checked = Checked(SOURCE)
checked.table("fourier", False, transform)
checked.table("spectrum", True, spectrum)
checked.end()
