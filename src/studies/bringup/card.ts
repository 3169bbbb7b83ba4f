import { cautionsOf } from '../../checks/cautions.ts';
import { drawnCurrent } from '../../checks/drawn-current.ts';
import { recommendedFuse } from '../../checks/recommended-fuse.ts';
import type { Result } from '../../checks/result.ts';
import type { Analysis } from '../../driver/analysis.ts';
import { nominalPoint } from '../../driver/operating-point.ts';
import type { Design } from '../../project/design.ts';
import type { Ampere, Hertz, Volt } from '../../units/si.ts';
import { readingLoads, type ReadingLoads } from '../reading-loads.ts';
import { gateTest, type GateTest } from './gate-test.ts';
import { lampChoice, type LampChoice } from './lamp.ts';
import { meterChecks, type MeterCheck } from './meter.ts';
import { voltageSteps, type VoltageStep } from './steps.ts';

/** How the supply is set. */
export interface SupplySetting {
  readonly voltage: Volt;
  /** Limit to set: above the start's peak and the running current at the worst corner, within what the project's supply gives. */
  readonly limit: Ampere;
  /** Highest that the chokes take at the start without load; undefined where the start is not known. */
  readonly startPeak?: Ampere;
  /** Highest while running, over loads and corners. */
  readonly running: Ampere;
  /** Limit of the project's own supply. */
  readonly own?: Ampere;
  /** Whether that is too low for what is wanted. */
  readonly isShort: boolean;
  /** Whether the supply rises while the gates are fed from it: it must be switched, never turned up. */
  readonly risesWithGates: boolean;
}

/** What a probe has to stand. */
export interface ProbeNeeds {
  /** Highest drain voltage of any event that is computed. */
  readonly highest: Volt;
  /** Between the drains, peak. */
  readonly acrossTank: Volt;
  readonly frequency: Hertz;
}

/** Everything that the card of a first power-up says. */
export interface BringupCard {
  /** Checks that fail or are not assessed: nothing is powered up before they are settled. */
  readonly blockers: readonly Result[];
  readonly warnings: readonly Result[];
  readonly cautions: readonly string[];
  readonly loads: ReadingLoads;
  readonly meter: readonly MeterCheck[];
  readonly gates: GateTest;
  readonly supply: SupplySetting;
  readonly lamp: LampChoice | { readonly none: string };
  readonly steps: readonly VoltageStep[];
  readonly fuse?: Ampere;
  readonly probe: ProbeNeeds;
}

/** The limit is set so far above the highest current: common practice. */
const aboveHighest = 1.2;

/**
 * The card of the first power-up of a design.
 *
 * @param analysis  with its events in the time domain
 * @param results   of its review
 */
export function bringupCard({ analysis, results }: { analysis: Analysis; results: readonly Result[] }): BringupCard {
  const { design } = analysis;
  const loads = readingLoads(design);
  const supply = supplySetting(analysis);
  const steps = voltageSteps({ analysis, results, loads, limit: supply.limit });
  const fuse = recommendedFuse(supply.running);
  return {
    blockers: results.filter(({ verdict }) => verdict === 'fail' || verdict === 'not assessed'),
    warnings: results.filter(({ verdict }) => verdict === 'warn'),
    cautions: cautionsOf(analysis),
    loads,
    meter: meterChecks(design),
    gates: gateTest(design),
    supply,
    lamp: lampChoice({ design, idle: loads.idle }),
    steps,
    ...(fuse === undefined ? {} : { fuse }),
    probe: probeNeeds({ analysis, steps, loads }),
  };
}

function supplySetting({ design, corners, starts }: Analysis): SupplySetting {
  const { voltage, currentLimit, riseTime = 0 } = design.supply;
  const currents = corners.flatMap(({ point }) =>
    point.running === undefined ? [] : [drawnCurrent({ design, point, running: point.running }).total],
  );
  const running = Math.max(0, ...currents);
  const peaks = (starts ?? []).flatMap((start) =>
    'unknown' in start || start.transient === undefined ? [] : [start.transient.supplyPeak],
  );
  const startPeak = peaks.length === (starts ?? []).length && peaks.length > 0 ? Math.max(...peaks) : undefined;
  const wanted = Math.max(startPeak ?? 0, aboveHighest * running);
  const own = currentLimit?.current;
  return {
    voltage,
    limit: Math.min(wanted, own ?? Infinity),
    ...(startPeak === undefined ? {} : { startPeak }),
    running,
    ...(own === undefined ? {} : { own }),
    isShort: own !== undefined && own < wanted,
    risesWithGates: isFedByRise(design) && riseTime > 0,
  };
}

function isFedByRise({ gates: { pullUp } }: Design): boolean {
  return pullUp.from === 'supply' && !pullUp.hold;
}

function probeNeeds({ analysis, steps, loads }: { analysis: Analysis; steps: readonly VoltageStep[]; loads: ReadingLoads }): ProbeNeeds {
  const { running } = nominalPoint({ design: analysis.design, load: loads.idle });
  const peaks = analysis.corners.flatMap(({ point, switchOn, loadRemoval }) => [
    point.running?.drainPeak ?? 0,
    ...[switchOn, loadRemoval].map((event) => (event === undefined || 'unknown' in event ? 0 : event.drainPeak)),
  ]);
  const ofSteps = steps.flatMap(({ insertionPeak = 0 }) => (typeof insertionPeak === 'number' ? [insertionPeak] : []));
  return {
    highest: Math.max(...peaks, ...ofSteps),
    acrossTank: running?.tankPeak ?? 0,
    frequency: running?.frequency ?? 0,
  };
}
