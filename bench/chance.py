# SPDX-License-Identifier: MIT
"""Simulate the brews of a plan in numpy: the oracle of chance's benchmark.

Reads one JSON object from standard input, written by chance/bench_test.go,
and prints one: the fastest of some runs in seconds, and the figures."""

import json
import sys
import time

import numpy as np
from scipy.special import ndtri

D = json.load(sys.stdin)
N = D["samples"]
R_GAS = 8.314462618e-3


def hypercube(rng, d):
    """d columns of N shares, one in each Nth part."""
    order = rng.permuted(np.broadcast_to(np.arange(N, dtype=np.float64), (d, N)), axis=1)
    return (order + rng.random((d, N))) / N


def plato(s):
    return ((182.46007 * s - 775.68212) * s + 1262.7794) * s - 669.56218


def gravity(p):
    s = 1 + p / (258.6 - 227.1 / 258.2 * p)
    for _ in range(3):
        s = s - (plato(s) - p) / ((3 * 182.46007 * s - 2 * 775.68212) * s + 1262.7794)
    return s


def transfer(x1, x2):
    a, c = np.exp(-x1), np.exp(-x2)
    return a, x1 / (x2 - x1) * (a - c), c


def rates(t, k):
    k1 = np.exp(k["ln1"] - k["e1"] / t) * (t >= 333.15)
    k2 = np.exp(k["ln2"] - 12994 / t)
    return k1, k2


def cooling(state, start, ambient, tau, minutes, nominal, k):
    """Follow states (pairs alpha, iso) through a cooling; shares of its time are
    those of the planned kettle's steps."""
    node = 0.28867513459481287
    gap0 = start - ambient
    for lo, hi in zip(nominal[:-1], nominal[1:]):
        d, mid = (hi - lo) * minutes, (hi + lo) / 2
        x1 = x2 = 0.0
        for at in (mid - node * (hi - lo), mid + node * (hi - lo)):
            t = ambient + gap0 * np.exp(-at * minutes / tau)
            a, b = rates(t, k)
            x1, x2 = x1 + a * d / 2, x2 + b * d / 2
        a, m, c = transfer(x1, x2)
        for s in state:
            s[1] = m * s[0] + c * s[1]
            s[0] = a * s[0]
    return ambient + gap0 * np.exp(-minutes / tau)


def layout(gap, tau, minutes):
    """Shares of the time at which the planned kettle's steps begin and end."""
    t, ends = 0.0, [0.0]
    while t < minutes:
        g = gap * np.exp(-t / tau)
        t = min(minutes, t + tau * min(2 / max(g, 1e-6), 0.5))
        ends.append(t / minutes)
    return ends


STEPS = {s["name"]: layout(s["gap"], s["tau"], s["minutes"]) for s in D["coolings"]}


def brew(x):
    """All beers from the columns of inputs, a dictionary by name."""
    one = np.ones(N)
    get = lambda name, otherwise: x.get(name, otherwise)
    extract, colour, absorbing = 0.0, 0.0, 0.0
    scale = get("grain scale", one)
    for m in D["malts"]:
        e = get("extract of " + m["name"], 1.0) * (1 - get("moisture of " + m["name"], 0.0) / (1 - m["moisture"]))
        extract = extract + m["extract"] * e
        late = get("colour of late grain", one) if m["late"] else 1.0
        colour = colour + (m["pale"] + m["color"] * get("colour of " + m["name"], one)) * late
        absorbing += m["mass"]
    extract = extract * scale * get("yield of the house", one)
    colour, absorbing = colour * scale, absorbing * scale
    full = D["liquor"] * get("volume of the liquor", one) - D["absorption"] * get("absorption of the goods", one) * absorbing
    s = np.full(N, D["fullSG"])
    for _ in range(3):
        f = 0.9982 * full * s * plato(s) / 100 - extract
        slope = 0.9982 * full / 100 * (plato(s) + s * ((3 * 182.46007 * s - 2 * 775.68212) * s + 1262.7794))
        s = s - f / slope
    mass = 0.9982 * full * s - D["evaporation"] * get("evaporation", one)
    op = 100 * extract / mass
    og = gravity(op)
    knock_out = mass / (0.9982 * og)
    collected = knock_out - D["kettleLoss"] * get("loss in the kettle", one) - D["lossOfHops"]
    packaged = collected - D["yeastLoss"] * get("loss in the fermenter", one)

    energy = get("isomerisation below the boil", 0.0)
    k = {
        "e1": 11858 + energy / R_GAS,
        "ln1": np.log(7.9e11 * get("rate of isomerisation", one)) + energy / R_GAS / 373.15,
        "ln2": np.log(4.1e12 * get("breakdown of iso-alpha acids", one)),
    }
    boils = D["boilsAt"] + get("boiling point that day", 0.0)
    water = D["coolant"] + get("cooling water", 0.0)
    tau, cools = D["tau"] * get("speed of the cooler", one), D["cools"] * get("cooling of the kettle left alone", one)
    thermometer = get("thermometer", 0.0)
    early, stand = [one.copy(), np.zeros(N)], [one.copy(), np.zeros(N)]
    k1, k2 = rates(boils, k)
    a, m, c = transfer(k1 * D["boil"], k2 * D["boil"])
    early = [a, m]
    target = D["stand"] + thermometer
    cooling([early], boils, water, tau, tau * np.log((boils - water) / (target - water)), STEPS["cool"], k)
    now = cooling([early, stand], target, D["room"], cools, D["standTime"], STEPS["stand"], k)
    target = np.maximum(D["pitch"] + thermometer, water + 1)
    cooling([early, stand], now, water, tau, tau * np.log((now - water) / (target - water)), STEPS["chill"], k)
    ibu = 0.0
    factor = np.power(0.000125, (s + og) / 2 - 1.050) / knock_out * get("house factor of bitterness", one) * get("bitterness from beer to beer", one)
    parts = []
    for h, state in zip(D["hops"], (early, stand)):
        alpha = h["alpha"] * get("alpha acids of " + h["name"], one) * np.exp(-get("ageing of " + h["name"], 0.0))
        grams = h["grams"] + get("weighing of " + h["charge"], 0.0)
        parts.append(1000 * grams * alpha * state[1] * factor * D["recovery"] * D["house"])
        ibu = ibu + parts[-1]
    ebc = 1.97 * 1.4922 * np.power(8.345404452 * colour / knock_out, 0.6859) * get("colour formula", one)

    attenuation = D["attenuation"] + get("attenuation of the yeast", 0.0)
    ap = op * (1 - attenuation)
    fg = gravity(ap)
    abv = (op - (0.1808 * op + 0.8192 * ap)) / (2.0665 - 0.010665 * op) / 100 * fg / 0.791 + get("formula of alcohol", 0.0)
    warm = (20 + get("warmest temperature of the beer", 0.0)) * 1.8 + 32
    slope = lambda f: 0.01821 + 0.090115 * np.exp(-(f - 32) / 43.11)
    co2 = D["co2"] + D["air"] * 14.503773773 * (slope(warm) - slope(68.0)) + D["gas"] * (get("priming", one) * D["packaged"] / packaged - 1)
    ph = D["ph"] + get("prediction of the mash pH", 0.0)
    out = {"og": og, "fg": fg, "abv": abv, "ibu": ibu, "bu:gu": ibu / (1000 * (og - 1)), "color": ebc, "attenuation": attenuation, "co2": co2, "mash-ph": ph}
    ions = {}
    salts = get("weighing of the salts", one) / get("volume of the liquor", one)
    for i in D["ions"]:
        ions[i["symbol"]] = i["base"] * get(i["name"] + " of the supply", one) + i["added"] * salts
    for name in ("Ca", "Mg", "Na", "Cl", "SO4", "HCO3"):
        out[name] = ions[name]
    out["SO4:Cl"] = ions["SO4"] / ions["Cl"]
    out["RA"] = ions["HCO3"] / 61.017 - ions["Ca"] / 20.039 / 3.5 - ions["Mg"] / 12.1525 / 7
    out["collected"], out["packaged"] = collected, packaged
    return out, [100 * parts[0] / ibu, parts and (D["hops"][1]["grams"] + get("weighing of " + D["hops"][1]["charge"], 0.0)) / knock_out]


def simulate(seed):
    rng = np.random.default_rng(seed)
    names = [i["name"] for i in D["inputs"]]
    sd = np.array([i["sd"] for i in D["inputs"]])
    mean = np.array([i["mean"] for i in D["inputs"]])
    z = ndtri(hypercube(rng, len(names)))
    columns = {n: m + s * row for n, m, s, row in zip(names, mean, sd, z)}
    out, extra = brew(columns)
    y = np.array(list(out.values()) + extra)
    middle = y.mean(axis=1)
    spread = y.std(axis=1, ddof=1)
    quantiles = np.quantile(y, [0.025, 0.05, 0.159, 0.25, 0.5, 0.75, 0.841, 0.95, 0.975], axis=1)
    centred = y - middle[:, None]
    inputs = z - z.mean(axis=1, keepdims=True)
    slopes = np.linalg.solve(inputs @ inputs.T, inputs @ centred.T)
    shares = slopes**2 / np.maximum((centred**2).mean(axis=1), 1e-300)
    together = np.corrcoef(y[spread > 0])
    inside = [(y[k] >= lo) & (y[k] <= hi) for k, lo, hi in D["rules"]]
    chances = [i.mean() for i in inside]
    joint = np.logical_and.reduce(inside).mean()
    return {"names": list(out), "mean": middle.tolist(), "sd": spread.tolist(), "joint": float(joint), "keep": [quantiles[0, 0], shares[0, 0], together[0, 0], chances[0]]}


simulate(0)
best = least = 1e9
for seed in range(D["runs"]):
    begin, work = time.perf_counter(), time.process_time()
    result = simulate(seed + 1)
    best = min(best, time.perf_counter() - begin)
    least = min(least, time.process_time() - work)
result["seconds"], result["processor"] = best, least
print(json.dumps(result))
