"""The driver of time-domain.mjs in SciPy's LSODA, with the equations of tests/oracle/oscillator.py or the same in plain floats.

    python3 lsoda.py CIRCUIT.json UNTIL LONGEST_STEP RTOL ATOL RUNS numpy|floats     writes JSON as driver-equations does
"""

import json
import sys
import time
from os.path import dirname, join

sys.path.insert(0, join(dirname(__file__), "..", "oracle"))

import numpy as np
import scipy
from scipy.integrate import solve_ivp

from oscillator import Oscillator
from random_designs import Swift


def main():
    path, *numbers, runs, form = sys.argv[1:]
    until, longest, rtol, atol = map(float, numbers)
    circuit = json.load(open(path))
    if form == "floats":
        swift = Swift(circuit).swift
        slope = lambda t, y: swift(t, y.tolist())
    else:
        slope = Oscillator(circuit).slope
    seconds = []
    for _ in range(int(runs)):
        began = time.process_time()
        done = solve_ivp(slope, (0, until), np.zeros(7), method="LSODA", rtol=rtol, atol=atol, max_step=longest)
        seconds.append(time.process_time() - began)
        if not done.success:
            sys.exit(done.message)
    y = done.y
    peaks = {
        "drain": np.max(y[:2]),
        "tank": np.max(np.abs(y[0] - y[1])),
        "supply": np.max(y[3] + y[4]),
        "choke": np.max(y[3:5]),
        "gate": np.max(y[5:7]),
    }
    result = {"version": f"{scipy.__version__}, Python {sys.version.split()[0]}", "seconds": seconds, "peaks": {k: float(v) for k, v in peaks.items()}}
    print(json.dumps({**result, "steps": len(done.t) - 1, "evaluations": int(done.nfev)}))


if __name__ == "__main__":
    main()
