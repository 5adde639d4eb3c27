# SPDX-License-Identifier: MIT
"""Writes kinetics.csv: random kettle histories with the state of a charge at
their end, solved by scipy.integrate.solve_ivp (Radau, rtol 1e-10) from the rate
constants of Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434.
Run it with: python3 kinetics.py > kinetics.csv  (needs numpy and scipy)

A segment is steady:T:d, linear:from:to:d or cooling:from:ambient:tau:d in °C and
min; a leading ! says that the wort runs off during it, uniformly. Below 60 °C
no alpha acid turns; integration is cut where the temperature passes 60 °C.
"""
import math
import random

import numpy as np
import scipy
from scipy.integrate import solve_ivp


def k1(c):
    return 0.0 if c < 60 else 7.9e11 * math.exp(-11858 / (c + 273.15))


def k2(c):
    return 4.1e12 * math.exp(-12994 / (c + 273.15))


def temperature(seg):
    kind, v = seg[0], seg[1]
    if kind == "steady":
        return lambda t: v[0]
    if kind == "linear":
        return lambda t: v[0] + (v[1] - v[0]) * t / v[2]
    return lambda t: v[1] + (v[0] - v[1]) * math.exp(-t / v[2])


def crossing(seg):
    kind, v = seg[0], seg[1]
    if kind == "linear" and v[0] != v[1]:
        return (60 - v[0]) / (v[1] - v[0]) * v[2]
    if kind == "cooling" and (60 - v[1]) / (v[0] - v[1]) > 0:
        return -v[2] * math.log((60 - v[1]) / (v[0] - v[1]))
    return -1.0


def solve(seg, start, state):
    """Returns the state at the end and the integral of the state over time."""
    T, end = temperature(seg), seg[1][-1]
    cuts = [start] + [c for c in [crossing(seg)] if start < c < end] + [end]
    y = np.array(list(state) + [0.0, 0.0])
    for a, b in zip(cuts, cuts[1:]):
        middle = T((a + b) / 2)

        def rhs(t, y):
            one = k1(T(t)) if middle >= 60 else 0.0
            if middle >= 60 and one == 0.0:
                one = k1(60)
            two = k2(T(t))
            return [-one * y[0], one * y[0] - two * y[1], y[0], y[1]]

        y = solve_ivp(rhs, (a, b), y, method="Radau", rtol=1e-10, atol=1e-13).y[:, -1]
    return y[:2], y[2:]


def run(history, at):
    state, begin = np.array([1.0, 0.0]), 0.0
    for seg in history:
        length = seg[1][-1]
        start = min(max(0.0, at - begin), length)
        begin += length
        if start >= length:
            continue
        end, integral = solve(seg, start, state)
        state = integral / (length - start) if seg[2] else end
    return state


def text(seg):
    return ("!" if seg[2] else "") + ":".join([seg[0]] + ["%g" % x for x in seg[1]])


def sample(rng):
    r = lambda a, b, digits=1: round(rng.uniform(a, b), digits)
    history = []
    if rng.random() < 0.5:
        history.append(("linear", [r(50, 80), 100.0, r(10, 60)], False))
    boil = r(93, 101)
    history.append(("steady", [boil, r(5, 120)], False))
    here = boil
    if rng.random() < 0.6:
        history.append(("cooling", [here, r(10, 30), r(90, 400), r(5, 60)], False))
        here = round(temperature(history[-1])(history[-1][1][-1]), 3)
    if rng.random() < 0.4:
        to = r(65, 85)
        history.append(("linear", [here, to, r(2, 20)], False))
        history.append(("steady", [to, r(5, 40)], False))
        here = to
    if rng.random() < 0.5:
        history.append(("cooling", [here, r(5, 20), r(3, 15), r(20, 60)], False))
    else:
        history.append(("cooling", [here, 20.0, r(150, 600), r(10, 60)], True))
    return history


rng = random.Random(20251)
print("# Made by kinetics.py with scipy %s; see there." % scipy.__version__)
print("# history;dosed after min;alpha acids left;iso-alpha acids, both per alpha acids dosed")
for _ in range(40):
    h = sample(rng)
    total = sum(s[1][-1] for s in h)
    for at in [0.0, round(rng.uniform(0, total), 1)]:
        a, i = run(h, at)
        print("%s;%g;%.8f;%.8f" % (" ".join(text(s) for s in h), at, a, i))
