import type { EnvelopeCircuit } from '../physics/envelope.ts';
import { seenChokeInductance } from '../physics/push-pull.ts';
import type { Design } from '../project/design.ts';
import type { Ohm } from '../units/si.ts';
import type { Tank } from './tank.ts';

/** Resistance of the chokes as the whole supply current sees it. */
export function chokeResistanceOf({ chokes: { arrangement, choke } }: Design): Ohm {
  const resistance = choke.ratings.resistance?.value ?? 0;
  return arrangement === 'two' ? resistance / 2 : resistance;
}

/** Tank and chokes as their envelope sees them, the switch without resistance. */
export function envelopeCircuitOf({
  design,
  tank: { chokeInductance, capacitance },
  parallelResistance,
}: {
  design: Design;
  tank: Tank;
  parallelResistance: Ohm;
}): EnvelopeCircuit {
  return {
    chokeInductance: seenChokeInductance({ arrangement: design.chokes.arrangement, chokeInductance }),
    capacitance,
    parallelResistance,
    dropResistance: chokeResistanceOf(design),
  };
}
