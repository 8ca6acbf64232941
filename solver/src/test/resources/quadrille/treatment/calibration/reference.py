"""The outside reference of FitterReferenceTest: SciPy's own fits of the same records.

    /usr/bin/python3 reference.py

writes reference-records.csv (made here, from a fixed seed) and reference-fits.csv beside this file. Made with SciPy
1.10.1 and NumPy 1.24.2 (Debian 12: apt-get install python3-scipy). Seconds are the sum of five times by their
multipliers, times a lognormal error of mean 1.

free      curve_fit on the logarithms: multipliers and standard errors, nothing assumed before
bounded   the same records of which the second time is none at all: curve_fit held at 0.05 or more
assumed   minimize over the sum of squares and the squared distance from 1 in units of the assumed covariance,
          standard errors from the inverse of its curvature (Gauss and Newton's), spread known
"""
import csv
import os
import numpy as np
from scipy.optimize import curve_fit, minimize

HERE = os.path.dirname(os.path.abspath(__file__))
SIGMA = 0.227
SHARED, OWN = 0.25, 0.25
LEAST = 0.05


def records(rng, multipliers, visits):
    x = rng.gamma(2.0, 300.0, (visits, len(multipliers)))
    error = np.exp(SIGMA * rng.standard_normal(visits) - SIGMA**2 / 2)
    return x, np.round((x @ multipliers) * error, 3)


def free(x, y, bounds=(-np.inf, np.inf)):
    """Rounds over the mean of the error's logarithm, which hangs on the spread."""
    variance = SIGMA**2
    for _ in range(200):
        fit, cov = curve_fit(
            lambda x, *m: np.log(np.maximum(x @ np.array(m), 1e-9)), x, np.log(y) + variance / 2,
            p0=np.ones(x.shape[1]), bounds=bounds, xtol=1e-14, ftol=1e-14, gtol=1e-14, method="trf",
            jac=lambda x, *m: x / np.maximum(x @ np.array(m), 1e-9)[:, None])
        rest = np.log(y) + variance / 2 - np.log(x @ fit)
        new = rest @ rest / (len(y) - x.shape[1])
        if abs(new - variance) < 1e-14:
            break
        variance = new
    return fit, np.sqrt(np.diag(cov)), np.sqrt(variance)


def assumed(x, y):
    n = x.shape[1]
    precision = np.linalg.inv(SHARED**2 * np.ones((n, n)) + OWN**2 * np.eye(n))

    def cost(m):
        rest = np.log(y) + SIGMA**2 / 2 - np.log(x @ m)
        return rest @ rest / SIGMA**2 / 2 + (m - 1) @ precision @ (m - 1) / 2

    def slope(m):
        rest = np.log(y) + SIGMA**2 / 2 - np.log(x @ m)
        return -(x / (x @ m)[:, None]).T @ rest / SIGMA**2 + precision @ (m - 1)

    fit = minimize(cost, np.ones(n), jac=slope, method="BFGS", options={"gtol": 1e-10}).x
    j = x / (x @ fit)[:, None]
    return fit, np.sqrt(np.diag(np.linalg.inv(j.T @ j / SIGMA**2 + precision))), SIGMA


def main():
    rng = np.random.default_rng(20260302)
    cases = {
        "free": records(rng, np.array([1.5, 0.8, 1.2, 0.6, 1.0]), 60),
        "bounded": records(rng, np.array([1.5, 0.0, 1.2, 0.6, 1.0]), 60),
        "assumed": records(rng, np.array([1.4, 0.9, 1.3, 0.7, 1.1]), 12),
    }
    with open(os.path.join(HERE, "reference-records.csv"), "w", newline="") as out:
        rows = csv.writer(out, lineterminator="\n")
        rows.writerow(["case", "seconds", "x1", "x2", "x3", "x4", "x5"])
        for name, (x, y) in cases.items():
            for row, seconds in zip(np.round(x, 3), y):
                rows.writerow([name, repr(float(seconds)), *(repr(float(v)) for v in row)])
    with open(os.path.join(HERE, "reference-fits.csv"), "w", newline="") as out:
        rows = csv.writer(out, lineterminator="\n")
        rows.writerow(["case", "number", "value", "standardError"])
        for name, (x, y) in cases.items():
            x = np.round(x, 3)
            if name == "assumed":
                fit, error, sigma = assumed(x, y)
            else:
                fit, error, sigma = free(x, y, (LEAST, np.inf) if name == "bounded" else (-np.inf, np.inf))
            for k, (value, one) in enumerate(zip(fit, error)):
                rows.writerow([name, f"x{k + 1}", f"{value:.7f}", f"{one:.7f}"])
            rows.writerow([name, "sigma", f"{sigma:.7f}", ""])


main()
