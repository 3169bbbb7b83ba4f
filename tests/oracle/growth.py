"""Growth of the oscillation from the state in which both switches conduct: eigenvalues of the linearised circuit.

The equilibrium is found by Newton's method on the equations of oscillator.py, its Jacobian by central differences; of the
pairs of complex eigenvalues near the resonance of the tank the one that grows fastest gives growth (1/s) and angular frequency
(rad/s), its right eigenvector how the circuit has to be nudged to show this mode alone, its left one how to see it.

    python3 growth.py growth.json           writes the circuits and their results
    python3 growth.py growth.json check     derives them again and compares
"""

import json
import sys

import numpy as np
import scipy
from scipy.linalg import eig
from scipy.optimize import fsolve

from oscillator import Oscillator


def circuit(arrangement, volts, l, c, load, chokes, k, pull_up, ciss, rail=12.0, limit=None, series=0.05, threshold=3.0, coil=0.01):
    """An invented circuit; both switches are equal."""
    supply = {"voltage": volts, "riseTime": 0, "rising": 0, "resistance": 0.05}
    if limit is not None:
        supply["limit"] = {"current": limit, "resistance": 10 * volts / limit}
    gates = {
        "pullUp": pull_up,
        "pullDown": 1e4,
        "releasedAt": 0,
        "clamp": {"voltage": 12, "resistance": 9},
        "crossDiode": {"saturation": 3.62e-10, "emission": 0.046, "slope": 0.05},
    }
    if rail is not None:
        gates["rail"] = rail
    one = {"constant": k, "series": series, "threshold": threshold}
    return {
        "arrangement": arrangement,
        "supply": supply,
        "choke": {"inductance": chokes[0], "resistance": chokes[1]},
        "tank": {"inductance": l, "coilResistance": coil, "capacitance": c, "load": load, "loadAfter": load, "changesAt": 1e9},
        "switches": [one, dict(one)],
        "capacitances": {"gateToSource": 0.95 * ciss, "gateToDrain": 0.05 * ciss, "drainToSource": 0.15 * ciss},
        "bodyDiode": {"saturation": 4.448e-9, "emission": 0.039, "slope": 0.012},
        "gates": gates,
    }


DESIGNS = {
    "supply at a limit of 1 A": circuit("two", 24, 2e-6, 2e-6, 10, (80e-6, 0.015), 8, 220, 4e-9, limit=1),
    "supply at a limit of 0.1 A": circuit("two", 24, 2e-6, 2e-6, 4, (80e-6, 0.015), 8, 220, 4e-9, limit=0.1),
    "small switches": circuit("two", 24, 4e-6, 1e-6, 12, (160e-6, 0.015), 1.2, 220, 1e-9, limit=0.1, series=0.3),
    "chokes of some resistance": circuit("two", 12, 4e-6, 1e-6, 15, (160e-6, 90), 1, 330, 1e-9, series=0.3),
    "hardly grows": circuit("two", 24, 5e-6, 0.5e-6, 9.5, (200e-6, 0.02), 0.5, 220, 1e-9, limit=0.02),
    "dies away": circuit("two", 24, 5e-6, 0.5e-6, 8, (200e-6, 0.02), 0.5, 220, 1e-9, limit=0.02),
    "slow gates": circuit("two", 24, 3e-6, 0.5e-6, 10, (120e-6, 0.015), 3, 1500, 8e-9, limit=0.08),
    "gates on the rail": circuit("two", 30, 10e-6, 1e-6, 12, (300e-6, 300), 2, 470, 3e-9, rail=None),
    "one choke at a limit of 1 A": circuit("centre-tap", 24, 2e-6, 2e-6, 10, (180e-6, 0.015), 8, 220, 4e-9, limit=1),
    "one choke of some resistance": circuit("centre-tap", 15, 8e-6, 0.66e-6, 20, (200e-6, 100), 1, 220, 1e-9),
    "one choke, small coil": circuit("centre-tap", 24, 0.5e-6, 2e-6, 5, (50e-6, 0.01), 3, 150, 3e-9, limit=0.3),
    "one choke, large coil": circuit("centre-tap", 48, 50e-6, 0.1e-6, 150, (1.2e-3, 0.1), 0.4, 1000, 0.5e-9, limit=0.004, coil=0.2),
    "one choke, strong switches": circuit("centre-tap", 20, 1e-6, 8e-6, 3, (100e-6, 0.01), 60, 220, 10e-9, limit=0.05, series=0.01),
    "one choke, dies away": circuit("centre-tap", 24, 6e-6, 1e-6, 3, (180e-6, 0.015), 3, 220, 1e-9, limit=0.03),
}


def equilibrium(oscillator):
    """Both drains alike, both gates alike, no current in the coil."""
    tapped = oscillator.tapped

    def state(x):
        v, j, g = x
        return np.array([v, v, 0, j, 0 if tapped else j, g, g])

    def slopes(x):
        d = oscillator.slope(1.0, state(x))
        return np.array([d[0] * 1e-6, d[3] * 1e-4, d[5] * 1e-6])

    s, r = oscillator.c["supply"], oscillator.c["choke"]["resistance"]
    share = 1 if tapped else 0.5
    current = 1.08 * share * s["limit"]["current"] if "limit" in s else share * s["voltage"] / (r + 0.1)
    for v in (2.2, 2.3, 2.4, 2.5, 2.7, 3, 4):
        x, _, found, _ = fsolve(slopes, (v, current, v + 0.85), xtol=1e-13, full_output=True)
        if found == 1 and x[0] > 0 and x[1] > 0:
            return state(x)
    raise RuntimeError("no equilibrium")


def growth(c):
    oscillator = Oscillator(c)
    y = equilibrium(oscillator)
    jacobian = np.zeros((7, 7))
    for i in range(7):
        h = 1e-6 * max(1.0, abs(y[i]))
        up, down = y.copy(), y.copy()
        up[i] += h
        down[i] -= h
        jacobian[:, i] = (np.array(oscillator.slope(1.0, up)) - np.array(oscillator.slope(1.0, down))) / (2 * h)
    values, left, right = eig(jacobian, left=True)
    resonance = 1 / np.sqrt(c["tank"]["inductance"] * c["tank"]["capacitance"])
    ringing = [i for i in range(7) if values[i].imag > 0.2 * resonance and abs(values[i]) < 3 * resonance]
    best = max(ringing, key=lambda i: values[i].real)
    mode = right[:, best] / (right[0, best] - right[1, best])
    # what picks the mode out of a state: 1 for the mode itself, 0 for every other
    pick = left[:, best].conj() / (left[:, best].conj() @ mode)
    return {
        "equilibrium": y.tolist(),
        "growth": float(values[best].real),
        "angularFrequency": float(values[best].imag),
        "mode": {"re": mode.real.tolist(), "im": mode.imag.tolist()},
        "pick": {"re": pick.real.tolist(), "im": pick.imag.tolist()},
    }


def main():
    results = [{"name": name, **growth(c), "circuit": c} for name, c in DESIGNS.items()]
    for one in results:
        periods = 2 * np.pi / one["angularFrequency"]
        print(f"{one['name']}: {one['growth']:.6g} 1/s, {one['growth'] * periods:.4f} a period, {1 / periods:.6g} Hz, v {one['equilibrium'][0]:.3f} V, j {one['equilibrium'][3]:.3f} A")
    if len(sys.argv) > 2:
        golden = {one["name"]: one for one in json.load(open(sys.argv[1]))["results"]}
        for one in results:
            kept = golden[one["name"]]
            for key in ("growth", "angularFrequency"):
                if abs(one[key] - kept[key]) > 1e-4 * abs(kept["angularFrequency"]) / (2 * np.pi):
                    sys.exit(f"{one['name']}: {key} is {one[key]}, golden {kept[key]}")
        print(f"growth of {len(results)} circuits: as golden")
        return
    how = f"growth.py, NumPy {np.__version__} and SciPy {scipy.__version__}: eigenvalues of the Jacobian by central differences at the equilibrium"
    json.dump({"how": how, "results": results}, open(sys.argv[1], "w"), indent=1)


if __name__ == "__main__":
    main()
