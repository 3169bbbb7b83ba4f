import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { place, stateCount, type Circuit } from '../../src/driver/time-domain/circuit.ts';

/** A circuit of the reference model, see tests/oracle/oscillator.py. */
export interface ReferenceDesign {
  readonly name: string;
  readonly until: number;
  readonly held: boolean;
  readonly circuit: Circuit;
}

const folder = join(import.meta.dirname, '..', 'oracle');

/** A file of the reference model. */
export function oracle(file: string): unknown {
  return JSON.parse(readFileSync(join(folder, file), 'utf8'));
}

export const { designs } = oracle('designs.json') as { designs: readonly ReferenceDesign[] };

/** A circuit of the reference by its name. */
export function referenceCircuit(name: string): Circuit {
  return referenceDesign(name).circuit;
}

/** A design of the reference by its name. */
export function referenceDesign(name: string): ReferenceDesign {
  const found = designs.find((design) => design.name === name);
  if (found === undefined) throw new Error(`no reference design ${name}`);
  return found;
}

/** Period of a tank without its losses, in s. */
export function periodOf({ tank }: Circuit): number {
  return 2 * Math.PI * Math.sqrt(tank.inductance * tank.capacitance);
}

/** At rest; with the gates held until the rail is up, drains and bulk capacitor stand at the rail. */
export function initialOf({ circuit, held }: ReferenceDesign): Float64Array {
  const initial = new Float64Array(stateCount(circuit));
  if (!held) return initial;
  initial[place.drainA] = initial[place.drainB] = circuit.supply.voltage;
  if (circuit.supply.buffer !== undefined) initial[place.rail] = circuit.supply.voltage;
  return initial;
}
