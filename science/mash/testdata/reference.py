#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes conversion.csv and ph.csv: the conversion model and the proton balance
solved by scipy, for the tests of this package. Run it in this folder; the
tests read the tables and need no Python."""
import csv
from math import exp, log10

from scipy import __version__ as scipy_version
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

R = 8.314
RESTS = {  # name: [(°C at the start, °C at the end, min)]
    "55": [(55, 55, 60)], "60": [(60, 60, 60)], "62": [(62, 62, 60)],
    "65 short": [(65, 65, 15)], "65 half": [(65, 65, 30)], "65": [(65, 65, 60)],
    "68": [(68, 68, 60)], "70": [(70, 70, 60)], "75": [(75, 75, 60)], "80": [(80, 80, 60)],
    "62 72": [(62, 62, 30), (72, 72, 20)],
    "50 63 72": [(50, 50, 15), (63, 63, 40), (72, 72, 20)],
    "72 65": [(72, 72, 15), (65, 65, 45)],
    "garage": [(67, 67, 60)], "ramp": [(61, 78, 40)], "fall": [(69, 66, 60)],
}


def slopes(temperature):
    def f(time, y):
        s, fermentable, alpha, beta = y
        t = temperature(time) + 273.15
        kg = 5.7e31 * exp(-220600 / (R * t)) if t < 333.15 else 3.1e14 * exp(-108300 / (R * t))
        kda = 6.9e30 * exp(-224200 / (R * t))
        kdb = 9.2e-4 * exp(410700 / R * (1 / 338.15 - 1 / t))
        r = exp(50000 / R * (1 / 338.15 - 1 / t))
        made = (8.0e-4 * r * alpha + 1.74e-3 * r * beta) * max(0, (1 - 0.2715) * (1 - s) - fermentable)
        return [-kg * s, made, -kda * alpha, -kdb * beta]
    return f


def converted(rests):
    y = [1.0, 0.0, 1.0, 1.0]
    for start, end, minutes in rests:
        seconds = minutes * 60
        path = lambda time: start + (end - start) * time / seconds
        y = solve_ivp(slopes(path), (0, seconds), y, method="LSODA", rtol=1e-10, atol=1e-13, max_step=5).y[:, -1]
    return y


def carbonate(ph, t=293.15):
    k1 = 10 ** (-356.3094 - 0.06091964 * t + 21834.37 / t + 126.8339 * log10(t) - 1684915 / t**2)
    k2 = 10 ** (-107.8871 - 0.03252849 * t + 5151.79 / t + 38.92561 * log10(t) - 563713.9 / t**2)
    h = 10**-ph
    return (k1 * h + 2 * k1 * k2) / (h * h + k1 * h + k1 * k2)


def free(ph):
    return 1000 * (10 ** (ph - 14.1682) - 10**-ph)


def demand(alkalinity, own):
    total = (alkalinity - free(own) + free(4.3)) / (carbonate(own) - carbonate(4.3))
    return lambda ph: total * (carbonate(own) - carbonate(ph)) + free(own) - free(ph)


def lactic(ph):
    return 1206 * 0.88 / 90.078 / (1 + 10 ** (3.86 - ph))


# base mass, pHDI, B, caramel mass, A57, litres, Ca, Mg, alkalinity, pH of the liquor, mL of lactic, mmol of bicarbonate, eta
MASHES = [
    (m, 5.75, 38, c, 10 + 0.158 * 120, v, ca, 10, a, 7.6, ml, soda, eta)
    for m, c, v in ((5, 0, 20), (4.5, 0.5, 18), (3, 1, 24))
    for ca, a in ((0, 0.5), (60, 2), (120, 5))
    for ml, soda in ((0, 0), (4, 0), (0, 60), (3, 20))
    for eta in (0.65, 0.85, 1)
]


def balance(row):
    m, phdi, b, c, a57, v, ca, mg, a, own, ml, soda, eta = row
    u = demand(a, own)
    return lambda ph: (
        m * b * (ph - phdi) + c * (a57 + 35 * (ph - 5.7)) + ml * lactic(ph)
        + v * (ca / (20.039 * 3.5) + mg / (12.1525 * 7)) - eta * v * u(ph) - soda * (1 - carbonate(ph)))


def main():
    with open("conversion.csv", "w", newline="") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow(["# made by reference.py with scipy", scipy_version])
        out.writerow(["# name", "rests as start:end:min", "raw", "fermentable", "alpha", "beta"])
        for name, rests in RESTS.items():
            path = " ".join(f"{s}:{e}:{m}" for s, e, m in rests)
            out.writerow([name, path] + [f"{abs(x):.9f}" for x in converted(rests)])
    with open("ph.csv", "w", newline="") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow(["# made by reference.py with scipy", scipy_version])
        out.writerow("# base kg,pHDI,B,caramel kg,A57,L,Ca,Mg,alkalinity,liquor pH,lactic mL,bicarbonate mmol,eta,pH".split(","))
        for row in MASHES:
            out.writerow(list(row) + [f"{brentq(balance(row), 1, 14, xtol=1e-13):.10f}"])


main()
