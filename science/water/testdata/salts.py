# SPDX-License-Identifier: MIT
"""Writes salts.csv: best doses of salts, found by trying every subset.

The Go code walks from subset to subset (NNLS). Here all 2^n subsets of the
salts are solved one by one in exact fractions, those with a negative dose are
thrown away, and the one with the smallest objective stays:

    sum over aims of ((c - aim)/max(aim, 20))^2 / 2 + 1e-4 * sum of doses in g/L

Run: python3 salts.py > salts.csv
"""
from fractions import Fraction as F
from itertools import combinations
import random

weight = {"H": F("1.008"), "O": F("15.999"), "Na": F("22.990"), "Mg": F("24.305"),
          "S": F("32.06"), "Cl": F("35.45"), "Ca": F("40.078"), "C": F("12.011")}
SO4 = weight["S"] + 4*weight["O"]
HCO3 = weight["H"] + weight["C"] + 3*weight["O"]
WATER = 2*weight["H"] + weight["O"]

def salt(water, **ions):  # name=(count, mass); mg/L per g/L
    mass = water*WATER + sum(n*m for n, m in ions.values())
    return {name: 1000*n*m/mass for name, (n, m) in ions.items()}

SALTS = {
    "gypsum": salt(2, Ca=(1, weight["Ca"]), SO4=(1, SO4)),
    "calcium-chloride": salt(2, Ca=(1, weight["Ca"]), Cl=(2, weight["Cl"])),
    "epsom-salt": salt(7, Mg=(1, weight["Mg"]), SO4=(1, SO4)),
    "table-salt": salt(0, Na=(1, weight["Na"]), Cl=(1, weight["Cl"])),
    "baking-soda": salt(0, Na=(1, weight["Na"]), HCO3=(1, HCO3)),
}
NAMES = list(SALTS)
IONS = ["Ca", "Mg", "Na", "HCO3", "Cl", "SO4"]
PRICE = F(1, 10000)

def solve(matrix, right):
    n = len(right)
    rows = [list(r) + [right[i]] for i, r in enumerate(matrix)]
    for i in range(n):
        pivot = next((r for r in range(i, n) if rows[r][i] != 0), None)
        if pivot is None:
            return None
        rows[i], rows[pivot] = rows[pivot], rows[i]
        rows[i] = [v/rows[i][i] for v in rows[i]]
        for r in range(n):
            if r != i:
                f = rows[r][i]
                rows[r] = [a - f*b for a, b in zip(rows[r], rows[i])]
    return [row[n] for row in rows]

def best(base, aims):
    scale = {ion: max(aim, 20) for ion, aim in aims.items()}
    column = {s: {ion: SALTS[s].get(ion, F(0))/scale[ion] for ion in aims} for s in NAMES}
    gap = {ion: F(aims[ion] - base[ion])/scale[ion] for ion in aims}
    winner = None
    for size in range(len(NAMES) + 1):
        for subset in combinations(NAMES, size):
            matrix = [[sum(column[a][i]*column[b][i] for i in aims) for b in subset] for a in subset]
            right = [sum(column[a][i]*gap[i] for i in aims) - PRICE for a in subset]
            doses = solve(matrix, right)
            if doses is None or any(d < 0 for d in doses):
                continue
            misses = [sum(column[s][i]*d for s, d in zip(subset, doses)) - gap[i] for i in aims]
            value = sum(m*m for m in misses)/2 + PRICE*sum(doses)
            if winner is None or value < winner[0]:
                winner = (value, dict(zip(subset, doses)))
    return winner

random.seed(1974)
print("# base " + " ".join(IONS) + "; aims (- is free); best objective; doses mg/L of " + " ".join(NAMES))
for _ in range(40):
    base = {ion: random.randrange(0, 120) for ion in IONS}
    aims = {ion: random.randrange(0, 200) for ion in IONS if random.random() < 0.75}
    value, doses = best(base, aims)
    print(",".join(str(base[i]) for i in IONS), ",".join(str(aims.get(i, "-")) for i in IONS),
          f"{float(value):.9f}", ",".join(f"{float(1000*doses.get(n, 0)):.4f}" for n in NAMES), sep=";")
