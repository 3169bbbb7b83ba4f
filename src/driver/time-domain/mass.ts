import type { Circuit } from './circuit.ts';

/** M of the equations: capacitances and inductances, flat, row by row. */
export function massOf({ arrangement, supply, choke, tank, capacitances }: Circuit): Float64Array {
  const n = supply.buffer === undefined ? 7 : 9;
  const { gateToSource, gateToDrain, drainToSource } = capacitances;
  const M = new Float64Array(n * n);
  M[0] = M[n + 1] = tank.capacitance + drainToSource + gateToDrain;
  M[1] = M[n] = -tank.capacitance;
  M[5] = M[n + 6] = M[5 * n] = M[6 * n + 1] = -gateToDrain;
  M[5 * n + 5] = M[6 * n + 6] = gateToSource + gateToDrain;
  M[2 * n + 2] = tank.inductance;
  M[3 * n + 3] = choke.inductance;
  M[4 * n + 4] = arrangement === 'two' ? choke.inductance : 1e-9;
  if (supply.buffer !== undefined) {
    M[7 * n + 7] = supply.buffer.capacitance;
    M[8 * n + 8] = supply.buffer.inductance;
  }
  return M;
}
