# SPDX-License-Identifier: MIT
"""Writes simulate.csv: the two models of simulate.go at constant and at rising
temperature, solved by scipy.integrate.solve_ivp (Radau, rtol 1e-10) from the
published equations and constants, written out again here.

Run: python3 simulate.py > simulate.csv  (needs scipy)

A row: model, degrees C at the start, K per hour, hours; then for andrestoro
lag, active and dead cells, sugar, ethanol, diacetyl, ethyl acetate; for
geeramirez glucose, maltose, maltotriose, cells, ethanol.
"""
from math import exp

import scipy
from scipy.integrate import solve_ivp

SUGAR = 130.0


def andrestoro(kelvin, y):
    lag, active, dead, sugar, ethanol, diacetyl, _ = y
    half = 0.5 * SUGAR
    mx = exp(108.31 - 31934.09 / kelvin) * sugar / (half + ethanol)
    msd = exp(33.82 - 10033.28 / kelvin) * half / (half + ethanol)
    ks = exp(-119.63 + 34203.95 / kelvin)
    ms = exp(-41.92 + 11654.64 / kelvin) * sugar / (ks + sugar)
    me = exp(3.27 - 1267.24 / kelvin) * sugar / (ks + sugar)
    ml = exp(30.72 - 9501.54 / kelvin)
    mdt = exp(130.16 - 38313 / kelvin)
    f = 1 - ethanol / half
    return [-ml * lag, (mx - mdt) * active + ml * lag, mdt * active - msd * dead, -ms * active,
            f * me * active, 1.27672e-4 * sugar * active - 1.13864e-3 * diacetyl * ethanol,
            exp(89.92 - 26589 / kelvin) * mx * active]


# at 12 and 16 degrees C: VG, VM, VN, KG, KM, KN, KiG, KiM
GEE = {12: (.015, .028, .13, 1.8, 610, 4460, 240, 8010),
       16: (.0302, .0364, .151, .102, 360, 2410, 262, 17500),
       8: (.013, .0268, .113, 4.7, 814, 7160, 182, 6360),
       4: (.0048, .0144, .087, 23.5, 1100, 10900, 123, 2090)}


def geeramirez(celsius, y):
    g, m, n, x, _ = y
    vg, vm, vn, kg, km, kn, ig, im = GEE[celsius]
    one = vg * g / (kg + g)
    two = vm * m / (km + m) * ig / (ig + g)
    three = vn * n / (kn + n) * ig / (ig + g) * im / (im + m)
    return [-one * x, -two * x, -three * x, (.134 * one + .268 * two + .402 * three) * x,
            (1.92 * one + 3.84 * two + 5.76 * three) * x]


def row(model, start, rise, hours, slope, y):
    end = solve_ivp(slope, (0, hours), y, method="Radau", rtol=1e-10, atol=1e-10).y[:, -1]
    print(",".join([model, f"{start:g}", f"{rise:g}", f"{hours:g}"] + [f"{v:.8g}" for v in end]))


print(f"# made by simulate.py with scipy {scipy.__version__}")
for start, rise, hours in [(10, 0, 48), (10, 0, 96), (13, 0, 24), (13, 0, 72), (16, 0, 48), (9, 0.05, 72), (12, 0.04, 60), (18, 0, 24)]:
    row("andrestoro", start, rise, hours,
        lambda t, y: andrestoro(start + rise * t + 273.15, y), [1.92, 0.08, 2, SUGAR, 0, 0, 0])
for start, hours in [(4, 96), (8, 96), (12, 48), (12, 120), (16, 24), (16, 96)]:
    row("geeramirez", start, 0, hours, lambda t, y: geeramirez(start, y), [70, 220, 40, 175, 0])
