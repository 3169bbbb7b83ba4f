import type { CapacitancePoint } from '../../src/physics/junction-charge.ts';

/** C over voltage, straight lines in logarithms of V + 0.7 V and C; level outside. */
function capacitanceThrough(points: readonly CapacitancePoint[]): (v: number) => number {
  return (v) => {
    const upper = points.findIndex(({ voltage }) => voltage > v);
    if (upper <= 0) return points.at(upper)!.capacitance;
    const [a, b] = [points[upper - 1]!, points[upper]!];
    const share = Math.log((v + 0.7) / (a.voltage + 0.7)) / Math.log((b.voltage + 0.7) / (a.voltage + 0.7));
    return a.capacitance * (b.capacitance / a.capacitance) ** share;
  };
}

/** Energy, ∫ V·C dV, and charge, ∫ C dV, from 0 to v by the midpoint rule. */
export function storageOf(points: readonly CapacitancePoint[]): (v: number) => { readonly energy: number; readonly charge: number } {
  const capacitance = capacitanceThrough(points);
  const pieces = 4000;
  return (v) => {
    let [energy, charge] = [0, 0];
    for (let i = 0; i < pieces; i++) {
      const at = ((i + 0.5) * v) / pieces;
      const moved = (capacitance(at) * v) / pieces;
      energy += at * moved;
      charge += moved;
    }
    return { energy, charge };
  };
}
