# SPDX-License-Identifier: MIT
"""Solve the gravity, hydrometer and refractometer equations with scipy.

Writes solved.csv, against which the Go tests compare their own solvers:
    python3 solved.py > solved.csv
The formulas are written out again here, with numpy polynomials and other root
finders (brentq and fsolve instead of Newton's method and bisection).
"""
import numpy as np
from numpy.polynomial import Polynomial
from scipy.optimize import brentq, fsolve

nbs = Polynomial([-669.56218, 1262.7794, -775.68212, 182.46007])
index = Polynomial([1.332986, 1.42926e-3, 5.3026e-6, 1.9160e-8])
alcohol_index = Polynomial([0, 5.9e-4, 6e-6])
ethanol = Polynomial([998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
                      306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426])
kell = Polynomial([999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12])
sucrose = np.zeros((5, 7))
sucrose[0, 1:7] = [385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890]
sucrose[1, 1:6] = [-46.2720, -7.1720, 1.1597, 5.1126, 17.5254]
sucrose[2, 1:5] = [59.7712, 7.2491, 12.3630, -35.4791]
sucrose[3, 1:4] = [-47.2207, -21.6977, 27.6301]
sucrose[4, 1:3] = [18.3184, 12.3081]


def water(t):
    return kell(t) / (1 + 16.887236e-3 * t)


def density(p, t):
    return water(t) + np.polynomial.polynomial.polyval2d((t - 20) / 100, p / 100, sucrose)


def sg(p):
    return brentq(lambda s: nbs(s) - p, 0.95, 1.3, xtol=1e-14)


def hydrometer(read, t, calibrated):
    def miss(p):
        return density(p, t) * (1 + 25e-6 * (t - calibrated)) / water(calibrated) - read
    return brentq(miss, -5, 50, xtol=1e-13)


def beer_sg(a, re):
    return ethanol(a / 100) / ethanol(0) + sg(re) - 1


def beer_from_brix(ri, rf):
    """Alcohol and real extract from both equations at once."""
    def miss(x):
        a, re = x
        return [(index(re) + alcohol_index(a) - index(rf)) * 1e3,
                ri * (100 + 1.0665 * a) / 100 - 2.0665 * a - re]
    a, re = fsolve(miss, [ri / 4, ri / 3], xtol=1e-11)
    return a, re


for p in np.arange(-2, 41, 3.0):
    print(f"sg,{p:.17g},,{sg(p):.12f}")
for p in np.arange(0, 41, 8.0):
    for t in [0, 7, 20, 33, 52, 68, 80]:
        print(f"density,{p:.17g},{t:.17g},{density(p, t):.8f}")
for read in [0.998, 1.012, 1.048, 1.095]:
    for t in [4, 15, 20, 28, 45, 60]:
        print(f"hydrometer,{read:.17g},{t:.17g},{hydrometer(read, t, 20):.9f}")
for ri in [8, 12.5, 17, 21]:
    for share in [0.45, 0.6, 0.8, 0.95]:
        a, re = beer_from_brix(ri, ri * share)
        print(f"alcohol,{ri:.17g},{ri * share:.17g},{a:.9f}")
        print(f"beersg,{ri:.17g},{ri * share:.17g},{beer_sg(a, re):.11f}")
