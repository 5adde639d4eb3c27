# SPDX-License-Identifier: MIT
"""Solves the two problems of TestAgainstScipy: the network in closed form with
numpy, the curved one by scipy's constrained optimiser, from the readings on the
standard input. Its answer is kept beside it:

    python3 reconciled.py < reconciled-readings.json > reconciled-answers.json
"""
import sys, json, numpy as np
from scipy.optimize import minimize
d = json.load(sys.stdin)
A = np.array([[1,-1,-1,0,0],[0,1,0,-1,0],[0,0,1,1,-1]], float)
# the unmeasured flow is in the second balance alone, which therefore checks nothing
A = A[[0,2]]
m = np.array(d["network"]); V = np.diag(np.array(d["networkSD"])**2)
G = V @ A.T @ np.linalg.inv(A @ V @ A.T)
x = m - G @ A @ m; C = V - G @ A @ V
full = np.append(x, x[1]-x[3]); T = np.vstack([np.eye(5), [0,1,0,-1,0]])
first = dict(Values=list(full), SDs=list(np.sqrt(np.diag(T @ C @ T.T))), Sum=float((m-x) @ np.linalg.inv(V) @ (m-x)))
m = np.array(d["curved"]); s = np.array(d["curvedSD"])
cons = [dict(type="eq", fun=lambda u: (m+s*u)[0]+(m+s*u)[2]-(m+s*u)[4]),
        dict(type="eq", fun=lambda u: (m+s*u)[0]*(m+s*u)[1]+(m+s*u)[2]*(m+s*u)[3]-(m+s*u)[4]*(m+s*u)[5])]
r = minimize(lambda u: u @ u, np.zeros(6), jac=lambda u: 2*u, constraints=cons, method="SLSQP", options=dict(ftol=1e-15, maxiter=500))
second = dict(Values=list(m+s*r.x), SDs=[], Sum=float(r.fun))
json.dump([first, second], sys.stdout, indent=1)
print()
