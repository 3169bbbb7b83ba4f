"""300 random designs of a self-oscillating resonant driver and what SciPy makes of their start: the reference for
tests/driver/random-designs.test.ts.

    python3 random_designs.py random-outcomes.json             draws the designs and runs those not there yet (half an hour on one core)
    python3 random_designs.py random-outcomes.json 5           runs five of them again and compares
    python3 random_designs.py random-outcomes.json flip 17 42  adds the outcomes of designs 17 and 42 at other supply voltages, and at
                                                               the end of a run that nothing ends before

The designs are drawn by random.Random(SEED) in the order of `draw`, every value rounded to three digits, so that the file holds all
that there is to know of a design. The equations are those of oscillator.py, written again in plain floats for speed and compared with it
at random states before anything is run. LSODA at RTOL with at most 1/70 of a period a step follows every start from rest to its end;
nothing is left out of a slow rail.

The outcome, in the words of the program:

    T    period while running, with the chokes' share and the damping; Te = 2*pi^2*sqrt(Le*C), period of the envelope
    up   when the rail is up: the rise of the source, a quarter of the ringing of leads and bulk capacitor, or rs*Cb, whichever is
         longest, and 3*rs*Cb after that; or half as long again as the limit of the source takes to charge the bulk capacitor, if that
         is longer; 0 for gates held until then
    swings   the tank voltage changed its sign within the last 8 T and the half period before that had a crest above half of the
             running amplitude, in proportion to the source while that rises
    mean     of the chokes' current over a window of the longer of Te and 12 T; the windows follow each other from 0.3 Te after the
             later of `up` and the first of the swings that have gone on without a break since
    steady   the mean is no more than 5 % above the one before
    runs     at the end of a window the mean is no more than 1.05 times the running current, or steady and no more than 1.25 times,
             each with 5 % of the largest of the envelope on top; or, at the end, it swings, steady and no more than 2.5 times
    latches  no change of sign for 8 T, and the chokes carry more than four times the largest current of the envelope, or 1.25 times
             once it has swung; or, at the end: a mean (without swings the current) of more than 2.5 times the running current; or
             both gates above their thresholds and both drains below
    stalls   none of these at the end, `up` + 6 Te + 100 T
    undecided  the integrator gave up, or it swings at the end with a mean that still rises

A run that has come to `runs` goes on for 2 Te and 30 T: one that does not swing any more then has latched, whatever its mean was.
"""

import json
import math
import random
import sys
import time as clock

import numpy as np
import scipy
from scipy.integrate import odeint, solve_ivp

from oscillator import Oscillator

SEED, COUNT = 20260, 300
RTOL, ATOL = 1e-7, 1e-5
STEPS_PER_PERIOD, POINTS_PER_PERIOD, PERIODS_A_PIECE = 70, 48, 20
BODY = {"saturation": math.exp(-0.75 / 0.039), "emission": 0.039, "slope": 0.012}


def rounded(x):
    return float(f"{x:.3g}")


def draw(rng):
    """One design. log(a, b) is even in the logarithm."""

    def log(a, b):
        return math.exp(rng.uniform(math.log(a), math.log(b)))

    d = {"L": log(0.5e-6, 50e-6), "C": log(0.1e-6, 10e-6), "V": log(8, 60)}
    quality = log(2, 100)
    impedance = math.sqrt(d["L"] / d["C"])
    own = quality * rng.uniform(1.1, 4)  # of the coil alone
    d["coilResistance"] = impedance / own
    d["load"] = 1 / (1 / (quality * impedance) - 1 / (own * impedance))
    current = math.pi**2 * d["V"] / (2 * quality * impedance)
    d["arrangement"] = rng.choice(["two", "centre-tap"])
    # up to 20 ms, and up to 1200 periods, which bounds the hours of the reference
    d["riseTime"] = 0.0 if rng.random() < 0.25 else min(log(20e-6, 20e-3), 1200 * 2 * math.pi * math.sqrt(d["L"] * d["C"]))
    d["sourceResistance"] = log(0.003, 0.05) * d["V"] / current
    d["choke"] = d["L"] * log(10, 100)
    d["chokeResistance"] = log(0.002, 0.02) * d["V"] / current
    on = min(1.5, max(0.002, log(1, 8) / current))
    d["onResistance"] = on
    d["constant"] = log(0.4, 1.5) / on
    d["threshold"] = rng.uniform(1.8, 4)
    ciss = min(15e-9, max(0.3e-9, log(60e-12, 200e-12) / on))
    d["ciss"], d["crss"], d["coss"] = ciss, ciss * log(0.01, 0.08), ciss * log(0.08, 0.3)
    d["mismatch"] = log(0.005, 0.05)
    period = 2 * math.pi * math.sqrt(d["L"] * d["C"])
    d["pullUp"] = min(2000, max(22, log(0.01, 0.4) * period / (2 * ciss)))
    d["pullDown"] = 10e3 if rng.random() < 0.7 else None
    d["clamp"] = rng.choice([12.0, 15.0]) if rng.random() < 0.9 or d["V"] > 18 else None
    d["clampResistance"] = log(5, 30)
    d["rail"] = rng.choice([None, 12.0])
    d["hold"] = rng.random() < 0.15
    d["forwardVoltage"] = rng.uniform(0.6, 1.1)  # of the cross diode, at 1 A
    d["limit"] = log(1.1, 5) * current if rng.random() < 0.5 else None
    bulk = rng.random() < 0.3
    # what keeps the rail rising for 1200 periods at most
    most = min(300 * period / d["sourceResistance"], math.inf if d["limit"] is None else 800 * period * d["limit"] / d["V"])
    d["bulk"] = min(most, log(100e-6, 4700e-6)) if bulk else None
    d["lead"] = log(0.3e-6, 5e-6) if bulk else None
    return {key: rounded(value) if isinstance(value, float) else value for key, value in d.items()}


def circuit_of(d):
    """The values of a design as oscillator.py takes them."""
    clamp = None if d["clamp"] is None else {"voltage": d["clamp"], "resistance": d["clampResistance"]}
    channel = 1 / (d["constant"] * (10 - d["threshold"]))
    switch = lambda side: {
        "constant": d["constant"],
        "series": d["onResistance"] - channel,
        "threshold": d["threshold"] * (1 + side * d["mismatch"] / 2),
    }
    supply = {"voltage": d["V"], "riseTime": 0.0 if d["hold"] else d["riseTime"], "resistance": d["sourceResistance"]}
    if d["limit"] is not None:
        supply["limit"] = {"current": d["limit"], "resistance": 10 * d["V"] / d["limit"]}
    if d["bulk"] is not None:
        supply["buffer"] = {"capacitance": d["bulk"], "inductance": d["lead"]}
    gates = {
        "pullUp": d["pullUp"],
        "pullDown": math.inf if d["pullDown"] is None else d["pullDown"],
        "crossDiode": {"saturation": math.exp(-d["forwardVoltage"] / 0.046), "emission": 0.046, "slope": 0.05},
    }
    if d["rail"] is not None:
        gates["rail"] = d["rail"]
    if clamp is not None:
        gates["clamp"] = clamp
    return {
        "arrangement": d["arrangement"],
        "supply": supply,
        "choke": {"inductance": d["choke"], "resistance": d["chokeResistance"]},
        "tank": {
            "inductance": d["L"],
            "coilResistance": d["coilResistance"],
            "capacitance": d["C"],
            "load": d["load"],
            "loadAfter": d["load"],
            "changesAt": math.inf,
        },
        "switches": [switch(1), switch(-1)],
        "capacitances": {
            "gateToSource": 2 * d["ciss"] - d["crss"],
            "gateToDrain": d["crss"],
            "drainToSource": max(0.1 * d["coss"], d["coss"] - d["crss"]),
        },
        "bodyDiode": BODY,
        "gates": gates,
    }


class Swift(Oscillator):
    """The slope in plain floats; `check` compares it with that of Oscillator."""

    def __init__(self, c):
        super().__init__(c)
        tank, choke, supply, gates = c["tank"], c["choke"], c["supply"], c["gates"]
        inverse = [list(map(float, row)) for row in self.inverse]
        (m00, m01, m02, m03), (m10, m11, m12, m13), (m20, m21, m22, m23), (m30, m31, m32, m33) = inverse
        exp, sqrt, log = math.exp, math.sqrt, math.log

        def junction(p):
            isat, n, r = p["saturation"], p["emission"], p["slope"]
            v1, i1, low = n * log(n / (r * isat)), n / r - isat, -40 * n

            def at(v):
                if v >= v1:
                    return i1 + (v - v1) / r
                return isat * (exp(v / n) - 1) if v > low else -isat

            return at

        def channel(p):
            k, rs, vth = p["constant"], p["series"], p["threshold"]

            def at(g, v):
                u = g - vth
                if u <= 0:
                    return 0.0
                full = 0.5 * k * u * u
                if v - rs * full >= u:
                    return full
                b = 1 + k * rs * u
                x = 2 * v / (b + sqrt(max(0.0, b * b - 2 * k * rs * v)))
                return k * (u * x - 0.5 * x * x)

            return at

        body, cross, below = junction(c["bodyDiode"]), junction(gates["crossDiode"]), junction({"saturation": 1e-12, "emission": 0.03, "slope": 0.2})
        channel_a, channel_b = channel(c["switches"][0]), channel(c["switches"][1])
        zener, zener_r = (gates["clamp"]["voltage"], gates["clamp"]["resistance"]) if "clamp" in gates else (math.inf, 1.0)
        down, up, own_rail = 1 / gates["pullDown"], 1 / gates["pullUp"], gates.get("rail")
        voltage, rise, rs0 = supply["voltage"], supply["riseTime"], supply["resistance"]
        limit = supply.get("limit")
        top, extra = (limit["current"], limit["resistance"]) if limit else (math.inf, 0.0)
        load, rl, l, lc, rc = tank["load"], tank["coilResistance"], tank["inductance"], choke["inductance"], choke["resistance"]
        tapped, buffered = self.tapped, self.buffered
        cb, ls = (supply["buffer"]["capacitance"], supply["buffer"]["inductance"]) if buffered else (1.0, 1.0)

        def clamped(g):
            i = -below(-g)
            over = g - zener
            if over >= 0.05:
                return i + over / zener_r
            return i + (over + 0.05) ** 2 / (0.2 * zener_r) if over > -0.05 else i

        def slope(t, y):
            if buffered:
                va, vb, il, ja, jb, ga, gb, rail, lead = y
            else:
                va, vb, il, ja, jb, ga, gb = y
            e = voltage * t / rise if t < rise else voltage
            chokes = ja if tapped else ja + jb
            if not buffered:
                r, emf = rs0, e
                drawn = chokes + ((2 * e - ga - gb) * up if own_rail is None else 0.0)
                if drawn > top:
                    r, emf = rs0 + extra, e + extra * top
                rail = emf - r * chokes if own_rail is not None else (emf - r * chokes + r * up * (ga + gb)) / (1 + 2 * r * up)
            feed = rail if own_rail is None else own_rail
            pa, pb = (feed - ga) * up, (feed - gb) * up
            xa, xb = cross(ga - vb), cross(gb - va)
            across = il + (va - vb) / load
            ia, ib = (ja / 2, ja / 2) if tapped else (ja, jb)
            da = ia - across - channel_a(ga, va) + body(-va) + xb
            db = ib + across - channel_b(gb, vb) + body(-vb) + xa
            fa = pa - xa - clamped(ga) - ga * down
            fb = pb - xb - clamped(gb) - gb * down
            if tapped:
                dja, djb = (rail - rc * ja - 0.5 * (va + vb)) / lc, 0.0
            else:
                dja, djb = (rail - rc * ja - va) / lc, (rail - rc * jb - vb) / lc
            out = [
                m00 * da + m01 * db + m02 * fa + m03 * fb,
                m10 * da + m11 * db + m12 * fa + m13 * fb,
                (va - vb - rl * il) / l,
                dja,
                djb,
                m20 * da + m21 * db + m22 * fa + m23 * fb,
                m30 * da + m31 * db + m32 * fa + m33 * fb,
            ]
            if buffered:
                drop = rs0 * lead + (extra * (lead - top) if lead > top else 0.0)
                out += [(lead - chokes - (pa + pb if own_rail is None else 0.0)) / cb, (e - drop - rail) / ls]
            return out

        self.swift = slope

    def check(self, rng):
        for _ in range(20):
            y = [rng.uniform(-1, 60), rng.uniform(-1, 60), rng.uniform(-20, 20), *(rng.uniform(0, 9) for _ in range(2))]
            y += [rng.uniform(-0.5, 13), rng.uniform(-0.5, 13)] + ([rng.uniform(0, 60), rng.uniform(0, 60)] if self.buffered else [])
            t = rng.uniform(0, 2) * self.c["supply"]["riseTime"]
            a, b = np.array(self.slope(t, np.array(y))), np.array(self.swift(t, y))
            if not np.allclose(a, b, rtol=1e-6, atol=1e-6 * np.max(np.abs(a))):
                sys.exit(f"the two forms of the equations differ: {a} {b}")


def measures(d):
    """Running state in closed form: finite quality, drops of source, chokes and the on switch."""
    tapped = d["arrangement"] == "centre-tap"
    impedance = math.sqrt(d["L"] / d["C"])
    parallel = 1 / (1 / d["load"] + d["coilResistance"] / impedance**2)
    quality = parallel / impedance
    q = 1 / math.sqrt(4 * quality**2 - 1)
    peak = 2 * math.sqrt(1 + q * q) * math.exp(-q * math.atan(1 / q)) / (1 + math.exp(-math.pi * q))
    power = 2 * (1 + q * q) * math.tanh(math.pi * q / 2) / (math.pi * q)
    drop = d["sourceResistance"] + d["chokeResistance"] / (1 if tapped else 2) + d["onResistance"]
    g = power * math.pi**2 / (2 * parallel)
    current = g * d["V"] / (1 + g * drop)
    share = 1 / 4 - 2 / math.pi**2 if tapped else 1 - 4 / math.pi**2
    period = 2 * math.pi * math.sqrt(d["L"] * d["C"]) / math.sqrt(1 + share * d["L"] / d["choke"]) / math.sqrt(1 - 1 / (4 * quality**2))
    seen = d["choke"] / (1 if tapped else 2)
    envelope = 2 * math.pi**2 * math.sqrt(seen * d["C"])
    up = 0.0
    if not d["hold"]:
        up = d["riseTime"]
        if d["bulk"] is not None:
            lag = d["sourceResistance"] * d["bulk"]
            up = max(up, math.pi / 2 * math.sqrt(d["lead"] * d["bulk"]), lag) + 3 * lag
            if d["limit"] is not None:
                up = max(up, 1.5 * d["bulk"] * d["V"] / d["limit"])
    return {
        "period": period,
        "envelope": envelope,
        "up": up,
        "amplitude": peak * math.pi * (d["V"] - current * drop),
        "running": current,
        "largest": d["V"] * math.pi / 2 * math.sqrt(d["C"] / seen) + 2 * current,
    }


def outcome(d, patient=False):
    """With patience nothing is called running before the end."""
    c = circuit_of(d)
    model, m = Swift(c), measures(d)
    model.check(random.Random(1))
    period, up = m["period"], m["up"]
    end = up + 6 * m["envelope"] + 100 * period
    longest = 2 * math.pi * math.sqrt(d["L"] * d["C"]) / STEPS_PER_PERIOD
    rise = c["supply"]["riseTime"]
    y = np.zeros(9 if model.buffered else 7)
    if d["hold"]:
        y[0] = y[1] = d["V"]
        if model.buffered:
            y[7] = d["V"]
    thresholds = [s["threshold"] for s in c["switches"]]
    t, side, crest, last, amplitude, since, verdict = 0.0, 0.0, 0.0, 0.0, 0.0, math.inf, None
    peaks, swinging = {"drain": 0.0, "supply": 0.0}, False
    swung = False
    window, opened, charge, means = max(m["envelope"], 12 * period), math.inf, 0.0, []
    spare, before = 0.05 * m["largest"], 0.0
    while t < end * (1 - 1e-12):
        until = min(end, t + PERIODS_A_PIECE * period)
        if t < rise * (1 - 1e-12) < until:
            until = rise
        grid = np.linspace(t, until, max(2, math.ceil((until - t) / period * POINTS_PER_PERIOD) + 1))
        states, told = odeint(lambda s, v: model.swift(s, v.tolist()), y, grid, tfirst=True, rtol=RTOL, atol=ATOL, hmax=longest, tcrit=[until], mxstep=20000, full_output=True, printmessg=False)
        if told["message"] != "Integration successful.":
            done = solve_ivp(lambda s, v: model.swift(s, list(v)), (t, until), y, method="Radau", rtol=RTOL, atol=ATOL, max_step=longest, t_eval=grid)
            if not done.success:
                return {"outcome": "undecided"}
            states = done.y.T
        for now, s in zip(grid[1:], states[1:].tolist()):
            tank = s[0] - s[1]
            current = s[3] if model.tapped else s[3] + s[4]
            if verdict is None:
                peaks["drain"] = max(peaks["drain"], s[0], s[1])
                peaks["supply"] = max(peaks["supply"], current)
            if tank * side < 0:
                if crest >= 1:
                    last, amplitude = now, crest
                crest = 0.0
            side = tank or side
            crest = max(crest, abs(tank))
            source = min(1.0, now / rise) if rise > 0 else 1.0
            swinging = now - last < 8 * period and amplitude > 0.5 * source * m["amplitude"]
            swung = swung or swinging
            since = min(since, now) if swinging else math.inf
            first = max(up, since) + 0.3 * m["envelope"]
            if not swinging:
                opened, means = math.inf, []
            elif now >= first and opened == math.inf:
                opened, charge = now, 0.0
            else:
                charge += current * (now - before)
                if now - opened >= window:
                    means.append(charge / (now - opened))
                    opened, charge = now, 0.0
                    steady = len(means) > 1 and means[-1] <= 1.05 * means[-2]
                    if verdict is None and not patient and means[-1] <= (1.25 if steady else 1.05) * m["running"] + spare:
                        verdict, end = "runs", min(end, now + 2 * m["envelope"] + 30 * period)
            before = now
            if now - last > 8 * period and current > (1.25 if swung else 4) * m["largest"]:
                return {"outcome": "latches", **peaks}
        t, y = until, states[-1]
    if verdict == "runs":
        return {"outcome": "runs" if swinging else "latches", **peaks}
    current = y[3] if model.tapped else y[3] + y[4]
    heavy = current > 2.5 * m["running"]
    if swinging and means:
        if means[-1] > 2.5 * m["running"] + spare:
            return {"outcome": "latches", **peaks}
        steady = len(means) > 1 and means[-1] <= 1.05 * means[-2]
        return {"outcome": "runs" if steady else "undecided", **peaks}
    if t - last < 8 * period:
        return {"outcome": "latches" if heavy else "stalls", **peaks}
    both = y[5] > thresholds[0] and y[6] > thresholds[1] and max(y[0], y[1]) < thresholds[0]
    return {"outcome": "latches" if heavy or both else "stalls", **peaks}


def tidy(result):
    return {key: float(f"{value:.5g}") if isinstance(value, float) else value for key, value in result.items()}


def write(path, data):
    """One design a line."""
    head = {key: value for key, value in data.items() if key != "designs"}
    lines = ",\n".join(json.dumps(one) for one in data["designs"])
    with open(path, "w") as file:
        file.write(json.dumps(head)[:-1] + ', "designs": [\n' + lines + "\n]}\n")


def main():
    path = sys.argv[1]
    if len(sys.argv) > 3 and sys.argv[2] == "flip":
        data = json.load(open(path))
        for number in map(int, sys.argv[3:]):
            one = data["designs"][number]
            one["atEnd"] = outcome(one["design"], patient=True)["outcome"]
            one["near"] = {}
            for share in (0.97, 0.98, 0.99, 1.01, 1.02, 1.03):
                one["near"][str(share)] = outcome({**one["design"], "V": one["design"]["V"] * share})["outcome"]
            print(number, one["outcome"], one["atEnd"], one["near"], flush=True)
        write(path, data)
        return
    if len(sys.argv) > 2:
        designs = json.load(open(path))["designs"]
        # those that ring for the shortest time
        quick = sorted(designs, key=lambda one: (measures(one["design"])["up"] + 6 * measures(one["design"])["envelope"]) / measures(one["design"])["period"])
        for one in quick[:: max(1, len(quick) // 2 // int(sys.argv[2]))][: int(sys.argv[2])]:
            again = tidy(outcome(one["design"]))
            if again["outcome"] != one["outcome"] or abs(again["drain"] / one["drain"] - 1) > 1e-3:
                sys.exit(f"design {designs.index(one)}: {again}, kept {one['outcome']}, {one['drain']} V")
            print(f"random design {designs.index(one)}: {again['outcome']}, as kept")
        return
    how = f"random_designs.py, seed {SEED}, SciPy {scipy.__version__} LSODA (Radau where it gives up), rtol {RTOL}, atol {ATOL}, at most 1/{STEPS_PER_PERIOD} of a period a step; SI units"
    rng = random.Random(SEED)
    drawn = [draw(rng) for _ in range(COUNT)]
    try:
        designs = json.load(open(path))["designs"]
    except FileNotFoundError:
        designs = []
    if [one["design"] for one in designs] != drawn[: len(designs)]:
        sys.exit(f"{path} holds other designs: remove it to draw all anew")
    for number in range(len(designs), COUNT):
        d, began = drawn[number], clock.process_time()
        designs.append({"design": d, **tidy(outcome(d))})
        write(path, {"how": how, "designs": designs})
        print(number, f"{clock.process_time() - began:.1f} s", {k: v for k, v in designs[-1].items() if k != "design"}, flush=True)


if __name__ == "__main__":
    main()
