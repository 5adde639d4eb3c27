# SPDX-License-Identifier: MIT
"""Writes carbonate.csv: acid demand of waters, worked out another way.

The Go code uses the mean charge of a carbonate in closed form. Here each
species is reckoned from bicarbonate by mass action, in a water that holds
strong cations (alkalinity) and gets strong anions (acid). The total carbonate
is found by bisection on the titration itself. Arithmetic in 50 decimal digits.

Run: python3 carbonate.py > carbonate.csv
"""
from decimal import Decimal as D, getcontext

getcontext().prec = 50
TEN = D(10)

# K1, K2, Kw at a temperature in degrees C, written out again from
# Plummer and Busenberg (1982) and Nordstrom et al. (1990).
def log10(x):
    return x.ln() / TEN.ln()

def constants(celsius):
    t = D(str(celsius)) + D("273.15")
    lt = log10(t)
    k1 = D("-356.3094") - D("0.06091964")*t + D("21834.37")/t + D("126.8339")*lt - D("1684915")/t**2
    k2 = D("-107.8871") - D("0.03252849")*t + D("5151.79")/t + D("38.92561")*lt - D("563713.9")/t**2
    kw = D("-283.971") - D("0.05069842")*t + D("13323")/t + D("102.24447")*lt - D("1119669")/t**2
    return TEN**k1, TEN**k2, TEN**kw

def strong_ion_difference(total, ph, k):
    """Charge of strong cations less strong anions (mol/L) that gives this pH."""
    k1, k2, kw = k
    h = TEN**(-D(str(ph)))
    # species from mass action on bicarbonate, scaled to the total
    acid_per_bicarbonate = h/k1
    carbonate_per_bicarbonate = k2/h
    bicarbonate = total/(1 + acid_per_bicarbonate + carbonate_per_bicarbonate)
    return bicarbonate + 2*carbonate_per_bicarbonate*bicarbonate + kw/h - h

def total_for(alkalinity, ph, end, k):
    low, high = D(0), D(1)
    for _ in range(150):
        middle = (low + high)/2
        used = strong_ion_difference(middle, ph, k) - strong_ion_difference(middle, end, k)
        if used < alkalinity:
            low = middle
        else:
            high = middle
    return (low + high)/2

def ph_of(total, difference, k):
    low, high = D(1), D(13)
    for _ in range(120):
        middle = (low + high)/2
        if strong_ion_difference(total, middle, k) < difference:
            low = middle
        else:
            high = middle
    return (low + high)/2

print("# alkalinity mEq/L, pH, endpoint, Celsius, target pH, total carbonate mmol/L, acid mEq/L, pH after half of it")
for alkalinity in ("0.3", "1.1", "2.758", "4.589", "7.5"):
    for ph in ("6.4", "7.2", "7.6", "8.4", "9.1"):
        for end, celsius in (("4.3", 10), ("4.5", 20), ("4.3", 25), ("4.6", 65)):
            k = constants(celsius)
            total = total_for(D(alkalinity)/1000, ph, end, k)
            for target in ("5.2", "5.7"):
                start = strong_ion_difference(total, ph, k)
                acid = start - strong_ion_difference(total, target, k)
                after = ph_of(total, start - acid/2, k)
                print(f"{alkalinity},{ph},{end},{celsius},{target},{float(total*1000):.6f},{float(acid*1000):.6f},{float(after):.5f}")
