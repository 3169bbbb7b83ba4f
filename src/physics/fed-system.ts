import type { Second, Volt } from '../units/si.ts';
import type { EnvelopeCircuit } from './envelope.ts';
import { matrixExponential, type Matrix } from './matrix-exponential.ts';
import type { RailFeed } from './rail-ringing.ts';

/** Of is, v, I and Vt. */
export type Row = readonly [number, number, number, number];

/** x′ = A·x + b·E over x = (is, v, I, Vt). */
export interface FedSystem {
  /** W: √Ls, √Cb, √Le, √C, the roots of twice the energies: with them only the losses are not antisymmetric. */
  readonly weights: Row;
  /** p with A·p + b·E = q. */
  readonly settled: (of: { source: Volt; moving?: Row }) => Row;
  /** e^(W·A·W⁻¹·t), whose numbers are alike in size; computed once for a time. */
  readonly onward: (time: Second) => Matrix;
}

/**
 * The envelope behind leads and a bulk capacitor as a linear system.
 *
 *     Ls·is' = E(t) − rs·is − v,  Cb·v' = is − I,  Le·I' = v − Vt/π − I·r,  C·Vt' = I/π − Vt/(2R)
 *
 * @param circuit  as EnvelopeCircuit; its r without source and leads
 * @param feed     rs in Ω, Ls in H, Cb in F; rs or Ls above zero
 * @returns weights in √H and √F, the state that a constant or steadily moving source settles in, and the way from one time to a later
 *
 * Valid for: as envelopeAt. Without lead inductance `is` is no state: it follows from the rail.
 * Source: Kirchhoff's laws and the envelope
 *
 * @example fedSystem({ circuit: { chokeInductance: 1, capacitance: 1, parallelResistance: Infinity, dropResistance: 1 }, feed: { resistance: 1, leadInductance: 1, bulkCapacitance: 1 } }).settled({ source: 1 }) // [0, 1, 0, 3.141592653589793]
 */
export function fedSystem({
  circuit: { chokeInductance: Le, capacitance: C, parallelResistance: R, dropResistance: r },
  feed: { resistance: rs, leadInductance: Ls, bulkCapacitance: Cb },
}: {
  circuit: EnvelopeCircuit;
  feed: RailFeed;
}): FedSystem {
  const leads = Ls > 0 ? 1 / Math.sqrt(Ls * Cb) : 0;
  const chokes = 1 / Math.sqrt(Le * Cb);
  const tank = 1 / (Math.PI * Math.sqrt(Le * C));
  // prettier-ignore
  const matrix = [
    Ls > 0 ? -rs / Ls : 0, -leads, 0, 0,
    leads, Ls > 0 ? 0 : -1 / (rs * Cb), -chokes, 0,
    0, chokes, -r / Le, -tank,
    0, 0, tank, -1 / (2 * R * C),
  ];
  const computed = new Map<Second, Matrix>();
  return {
    weights: [Math.sqrt(Ls), Math.sqrt(Cb), Math.sqrt(Le), Math.sqrt(C)],
    settled: ({ source: E, moving: [q0, q1, q2, q3] = [0, 0, 0, 0] }) => {
      const across = E - Ls * q0;
      const [spill, fall] = [Cb * q1, Le * q2];
      const is =
        (C * q3 + spill / Math.PI + (Math.PI / (2 * R)) * (across + r * spill - fall)) / (1 / Math.PI + (Math.PI / (2 * R)) * (rs + r));
      const [v, I] = [across - rs * is, is - spill];
      return [is, v, I, Math.PI * (v - r * I - fall)];
    },
    onward: (time) => {
      const found = computed.get(time) ?? matrixExponential({ matrix, time });
      computed.set(time, found);
      return found;
    },
  };
}
