#!/usr/bin/env python3
"""What bench_spectrum is compared with: scipy.signal.welch on a minute of sound at 48 kHz, the least of seven runs."""
import time

import numpy
import scipy.signal

RATE, SECONDS = 48000, 60
k = numpy.arange(RATE * SECONDS)
samples = numpy.sin(0.1 * k) + 1e-9 * (k * k % 1000003)
print("frame,ms,times real time")
for frame in (1024, 4096, 16384, 24000, 22050, 24001):
    least = float("inf")
    for run in range(7):
        start = time.process_time()
        scipy.signal.welch(samples, RATE, nperseg=frame)
        least = min(least, time.process_time() - start)
    print(f"{frame},{1e3 * least:.1f},{SECONDS / least:.0f}")
