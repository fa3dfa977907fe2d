#!/usr/bin/env python3
"""What bench_waves is compared with: the same step of the waves (docs/theory/waves.md, eq. 3) as one writes it in NumPy. Processor time,
the least of several runs."""
import time

import numpy

WORK, RUNS = 4e6, 9
print("cells,million cells a second")
for cells in (100, 1000, 10000, 100000):
    bore, speed = 0.05, 1200.0
    z = 1000 * speed / (numpy.pi / 4 * bore**2)
    linear, square = 1e3 * 0.06, 1e6 * 0.06  # of a cell
    flow = 1e-4
    forward = numpy.full(cells + 1, 6e5 + z * flow)
    backward = numpy.full(cells + 1, 6e5 - z * flow)
    least = float("inf")
    for run in range(RUNS):
        start = time.process_time()
        steps = int(WORK / cells)
        for _ in range(steps):
            left, right = forward[:-2], backward[2:]
            push = left - right
            w = 4 * z * push / (2 * z + linear + numpy.sqrt((2 * z + linear) ** 2 + 4 * square * numpy.abs(push)))
            next_forward, next_backward = numpy.empty_like(forward), numpy.empty_like(backward)
            next_forward[1:-1], next_backward[1:-1] = right + w, left - w
            next_forward[0] = 2 * 6e5 - backward[1]  # a reservoir
            next_backward[-1] = forward[-2]  # shut
            next_backward[0], next_forward[-1] = backward[1], forward[-2]
            forward, backward = next_forward, next_backward
        least = min(least, time.process_time() - start)
    print(f"{cells},{steps * cells / least / 1e6:.1f}")
