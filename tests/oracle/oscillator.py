"""The circuit of a self-oscillating resonant driver in SciPy: the reference that the solver in src/driver/time-domain is held to.

Written from the equations, state by state, with a general-purpose integrator; nothing is shared with the program under test.

    python3 oscillator.py designs.json golden.json        writes all results
    python3 oscillator.py designs.json golden.json 5      derives five of them again and compares
    python3 oscillator.py designs.json golden.json new    writes those of designs that have none yet

Outcomes: it runs where the tank still swings to half of pi times the supply in the end; else it has latched where it draws 2.5 times
what it would draw running, or where both gates are above their thresholds with both drains below them; else it has stalled.
"""

import bisect
import json
import math
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp

RTOL, ATOL = 1e-9, 1e-9
STEPS_PER_PERIOD = 70


def junction(isat, n, r):
    """Exponential, straight from where it would be steeper than 1/r; as a function of its voltage."""
    v1 = n * math.log(n / (r * isat))

    def current(v):
        if v < v1:
            return isat * (math.exp(v / n) - 1.0) if v > -40 * n else -isat
        return n / r - isat + (v - v1) / r

    return current


def channel(vgs, vds, p):
    """Square law, the same seen from either end, with a resistance in the drain: x = vds - i*rs is what the channel sees.

    i = k/2*(max(u, 0)^2 - max(u - x, 0)^2), one monotonic equation in i.
    """
    k, rs, u = p["constant"], p["series"], vgs - p["threshold"]
    forward = max(u, 0.0)
    full = 0.5 * k * forward * forward
    if u - (vds - full * rs) <= 0:
        return full
    # with w = u - x: k*rs/2*w^2 + w = u - vds + rs*full
    b = u - vds + rs * full
    w = 2 * b / (1 + math.sqrt(1 + 2 * k * rs * b))
    return full - 0.5 * k * w * w


below = junction(1e-12, 0.03, 0.2)


def clamp(g, p):
    i = -below(-g)
    if p is None:
        return i
    knee, over = 0.05, g - p["voltage"]
    if over >= knee:
        return i + over / p["resistance"]
    if over > -knee:
        return i + (over + knee) ** 2 / (4 * knee * p["resistance"])
    return i


def capacitance(points):
    """Over voltage: a junction's power law of v + 0.7 V from point to point, straight lines in logarithms; level outside."""
    at = [math.log(p["voltage"] + 0.7) for p in points]
    values = [math.log(p["capacitance"]) for p in points]
    low, high = points[0]["voltage"], points[-1]["voltage"]

    def value(v):
        if v <= low:
            return points[0]["capacitance"]
        if v >= high:
            return points[-1]["capacitance"]
        x = math.log(v + 0.7)
        k = bisect.bisect_right(at, x, 1, len(at) - 1)
        return math.exp(values[k - 1] + (values[k] - values[k - 1]) * (x - at[k - 1]) / (at[k] - at[k - 1]))

    return value


class Oscillator:
    """Voltages and currents as states. A capacitance that changes is dQ/dV: the matrix of the nodes is then that of the moment."""

    def __init__(self, c):
        self.c = c
        self.tapped = c["arrangement"] == "centre-tap"
        self.buffered = "buffer" in c["supply"]
        cap = c["capacitances"]
        over = cap.get("overVoltage")
        self.over = over and (capacitance(over["gateToDrain"]), capacitance(over["drainToSource"]))
        self.inverse = self.inverted((cap["gateToDrain"],) * 2, (cap["drainToSource"],) * 2)
        self.cross, self.body = (junction(p["saturation"], p["emission"], p["slope"]) for p in (c["gates"]["crossDiode"], c["bodyDiode"]))

    def inverted(self, gd, ds):
        """Inverse of the capacitance matrix of drains A, B and gates A, B."""
        tank, gs = self.c["tank"]["capacitance"], self.c["capacitances"]["gateToSource"]
        m = np.zeros((4, 4))
        for i in (0, 1):
            m[i, i] = tank + ds[i] + gd[i]
            m[i, 1 - i] = -tank
            m[i, 2 + i] = m[2 + i, i] = -gd[i]
            m[2 + i, 2 + i] = gs + gd[i]
        return np.linalg.inv(m).tolist()

    def source(self, t):
        s = self.c["supply"]
        return s["voltage"] * t / s["riseTime"] if t < s["riseTime"] else s["voltage"]

    def slope(self, t, y):
        c = self.c
        y = y.tolist() if hasattr(y, "tolist") else list(y)
        va, vb, il, ja, jb, ga, gb = y[:7]
        s, tank, gates = c["supply"], c["tank"], c["gates"]
        e, rs, rg = self.source(t), s["resistance"], gates["pullUp"]
        own_rail = gates.get("rail")
        chokes = ja if self.tapped else ja + jb
        limit = s.get("limit")
        if self.buffered:
            rail = y[7]
        else:
            def solved(r, emf):
                # rail = emf - r*(chokes + both pull-ups if they hang on it)
                if own_rail is not None:
                    return emf - r * chokes
                return (emf - r * chokes + r * (ga + gb) / rg) / (1 + 2 * r / rg)

            # the source is the lower of its two lines, the load rises with the rail: the lower crossing is the one
            rail = solved(rs, e)
            if limit is not None:
                rail = min(rail, solved(rs + limit["resistance"], e + limit["resistance"] * limit["current"]))
        feed = rail if own_rail is None else own_rail
        pa, pb = (feed - ga) / rg, (feed - gb) / rg
        load = tank["load"] if t < tank["changesAt"] else tank["loadAfter"]
        xa, xb = self.cross(ga - vb), self.cross(gb - va)
        across = (va - vb) / load
        ia, ib = (ja / 2, ja / 2) if self.tapped else (ja, jb)
        into = (
            ia - il - across - channel(ga, va, c["switches"][0]) + self.body(-va) + xb,
            ib + il + across - channel(gb, vb, c["switches"][1]) + self.body(-vb) + xa,
            pa - xa - clamp(ga, gates.get("clamp")) - ga / gates["pullDown"],
            pb - xb - clamp(gb, gates.get("clamp")) - gb / gates["pullDown"],
        )
        inverse = self.inverse
        if self.over:
            gd, ds = self.over
            inverse = self.inverted((gd(va - ga), gd(vb - gb)), (ds(va), ds(vb)))
        i0, i1, i2, i3 = into
        dva, dvb, dga, dgb = (m[0] * i0 + m[1] * i1 + m[2] * i2 + m[3] * i3 for m in inverse)
        dil = (va - vb - tank["coilResistance"] * il) / tank["inductance"]
        ch = c["choke"]
        if self.tapped:
            dja, djb = (rail - ch["resistance"] * ja - (va + vb) / 2) / ch["inductance"], 0.0
        else:
            dja = (rail - ch["resistance"] * ja - va) / ch["inductance"]
            djb = (rail - ch["resistance"] * jb - vb) / ch["inductance"]
        out = [dva, dvb, dil, dja, djb, dga, dgb]
        if self.buffered:
            total = chokes + (pa + pb if own_rail is None else 0.0)
            drop = rs * y[8]
            if limit is not None and y[8] > limit["current"]:
                drop += limit["resistance"] * (y[8] - limit["current"])
            out += [(y[8] - total) / s["buffer"]["capacitance"], (e - drop - rail) / s["buffer"]["inductance"]]
        return out

    def run(self, until, held):
        y = np.zeros(9 if self.buffered else 7)
        if held:
            y[0] = y[1] = self.c["supply"]["voltage"]
            if self.buffered:
                y[7] = self.c["supply"]["voltage"]
        tank = self.c["tank"]
        period = 2 * np.pi * np.sqrt(tank["inductance"] * tank["capacitance"])
        breaks = sorted({0.0, until, *[t for t in (self.c["supply"]["riseTime"], tank["changesAt"]) if 0 < t < until]})
        times, states = [np.array([0.0])], [y[:, None]]
        for start, end in zip(breaks, breaks[1:]):
            middle = lambda t, v, end=end: self.slope(min(t, end * (1 - 1e-13)), v)
            for method in ("LSODA", "Radau"):
                done = solve_ivp(middle, (start, end), y, method=method, rtol=RTOL, atol=ATOL, max_step=period / STEPS_PER_PERIOD)
                if done.success:
                    break
            if not done.success:
                raise RuntimeError(done.message)
            times.append(done.t[1:])
            states.append(done.y[:, 1:])
            y = done.y[:, -1]
        return np.concatenate(times), np.concatenate(states, axis=1), period


def summary(design):
    c = design["circuit"]
    t, y, period = Oscillator(c).run(design["until"], design.get("held", False))
    tapped = c["arrangement"] == "centre-tap"
    chokes = y[3] if tapped else y[3] + y[4]
    tank = y[0] - y[1]
    late = np.where((tank[:-1] < 0) & (tank[1:] >= 0) & (t[1:] > 0.5 * design["until"]))[0]
    crossings = t[late] - tank[late] * (t[late + 1] - t[late]) / (tank[late + 1] - tank[late])
    swing = np.max(np.abs(tank[t > 0.9 * t[-1]]))
    swings = len(crossings) > 3 and t[-1] - crossings[-1] < 3 * period and swing > 1
    volts, values = c["supply"]["voltage"], c["tank"]
    coil = values["inductance"] / values["capacitance"] / values["coilResistance"]
    running = np.pi**2 * volts / 2 * (1 / values["loadAfter"] + 1 / coil)
    conducts = all(y[5 + i, -1] > c["switches"][i]["threshold"] for i in (0, 1)) and max(y[0, -1], y[1, -1]) < c["switches"][0]["threshold"]
    if swings and swing > 0.5 * np.pi * volts:
        outcome = "runs"
    else:
        outcome = "latches" if chokes[-1] > 2.5 * running or conducts else "stalls"
    return {
        "name": design["name"],
        "drain": float(np.max(y[:2])),
        "tank": float(np.max(np.abs(tank))),
        "supply": float(np.max(chokes)),
        "choke": float(np.max(y[3] if tapped else y[3:5])),
        "gate": float(np.max(y[5:7])),
        "swings": bool(swings),
        "frequency": float((len(crossings) - 1) / (crossings[-1] - crossings[0])) if swings else None,
        "outcome": outcome,
    }


def main():
    designs = json.load(open(sys.argv[1]))["designs"]
    if len(sys.argv) > 3 and sys.argv[3] != "new":
        golden = {one["name"]: one for one in json.load(open(sys.argv[2]))["results"]}
        for design in designs[:: max(1, len(designs) // int(sys.argv[3]))][: int(sys.argv[3])]:
            again, kept = summary(design), golden[design["name"]]
            for key in ("drain", "tank", "supply", "choke", "gate"):
                if abs(again[key] - kept[key]) > 1e-3 * abs(kept[key]) + 1e-3:
                    sys.exit(f"{design['name']}: {key} is {again[key]}, golden {kept[key]}")
            for key in ("swings", "outcome"):
                if again[key] != kept[key]:
                    sys.exit(f"{design['name']}: {key} is {again[key]}, golden {kept[key]}")
            print(f"{design['name']}: as golden")
        return
    kept = {}
    if len(sys.argv) > 3:
        kept = {one["name"]: one for one in json.load(open(sys.argv[2]))["results"]}
    results = []
    for design in designs:
        results.append(kept.get(design["name"]) or summary(design))
        print(results[-1], flush=True)
    how = f"oscillator.py, SciPy {scipy.__version__} LSODA (Radau where it gives up), rtol {RTOL}, atol {ATOL}, at most 1/{STEPS_PER_PERIOD} of a period a step"
    with open(sys.argv[2], "w") as file:
        json.dump({"how": how, "results": results}, file, indent=2)
        file.write("\n")


if __name__ == "__main__":
    main()
