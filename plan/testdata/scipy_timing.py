# SPDX-License-Identifier: MIT
"""Time a general solver on the kettle of BenchmarkFiveCharges.

Five charges in one kettle: boil 60, 30 and 5 min, flame-out, stand at 80 °C,
then a run-off through a cooler. The rate constants are those of Malowicki and
Shellhammer (2005), read in the abstract. The package integrates the same
equations in exact exponential steps; this script asks scipy's solve_ivp, to a
relative error of 1e-6, and prints the iso-alpha acids per alpha acids dosed
with the time it took.

Needs Debian's python3-scipy: /usr/bin/python3 plan/testdata/scipy_timing.py
"""
import sys
import time

try:
    import numpy as np
    from scipy.integrate import solve_ivp
except ImportError:
    print("scipy is not installed: nothing to time")
    sys.exit(0)

BOIL, COOL_TAU, WATER = 75.0, 21.0, 12.0  # min, min, °C: the Boathouse
ROOM, LEFT_ALONE = 20.0, 300.0            # °C, min
STAND, RUN_OFF = 20.0, 40.0               # min
COOL = COOL_TAU * np.log((100 - WATER) / (80 - WATER))
AFTER_STAND = ROOM + (80 - ROOM) * np.exp(-STAND / LEFT_ALONE)


def temperature(t):
    """°C of the kettle t minutes after the start of the boil."""
    if t < BOIL:
        return 100.0
    t -= BOIL
    if t < COOL:
        return WATER + (100 - WATER) * np.exp(-t / COOL_TAU)
    t -= COOL
    if t < STAND:
        return ROOM + (80 - ROOM) * np.exp(-t / LEFT_ALONE)
    return ROOM + (AFTER_STAND - ROOM) * np.exp(-(t - STAND) / LEFT_ALONE)


def rates(t):
    kelvin = temperature(t) + 273.15
    iso = 7.9e11 * np.exp(-11858 / kelvin) if kelvin >= 333.15 else 0.0
    return iso, 4.1e12 * np.exp(-12994 / kelvin)


def change(t, y):
    """Alpha, iso, and the mean of iso over the run-off."""
    k1, k2 = rates(t)
    leaving = y[1] / RUN_OFF if t >= BOIL + COOL + STAND else 0.0
    return [-k1 * y[0], k1 * y[0] - k2 * y[1], leaving]


def charge(at):
    y, start = [1.0, 0.0, 0.0], at
    for end in (BOIL, BOIL + COOL, BOIL + COOL + STAND, BOIL + COOL + STAND + RUN_OFF):
        if end <= start:
            continue
        y = solve_ivp(change, (start, end - 1e-9), y, rtol=1e-6, atol=1e-9).y[:, -1]
        start = end
    return y[2]


CHARGES = (BOIL - 60, BOIL - 30, BOIL - 5, BOIL, BOIL + COOL)
for _ in range(2):
    begin = time.perf_counter()
    yields = [charge(at) for at in CHARGES]
    took = time.perf_counter() - begin
print("scipy solve_ivp: %.1f ms for five charges, iso per alpha %s"
      % (took * 1000, " ".join("%.5f" % y for y in yields)))
