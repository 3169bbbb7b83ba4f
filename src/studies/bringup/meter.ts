import { warmCoil } from '../../driver/coil-heat.ts';
import { coilOf } from '../../driver/coil.ts';
import { capacitorToleranceOf } from '../../driver/capacitor-tolerance.ts';
import { diodeDrop } from '../../physics/gate.ts';
import type { Design } from '../../project/design.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { Ohm, Volt } from '../../units/si.ts';

/** What a meter reads on the dead circuit. */
export interface MeterCheck {
  readonly between: string;
  readonly range: 'LCR meter' | 'ohms' | 'diode';
  /** `open`: over the range of the meter. */
  readonly expect: { readonly low: number; readonly high: number; readonly dimension: Dimension } | 'open';
  readonly note: string;
}

/** Test current of a meter's diode range: common practice, no source. */
const diodeTestCurrent = 1e-3;
/** Resistors of a gate network: common practice, no source. */
const resistorTolerance = 0.05;
/** Leads and contacts of an ohmmeter together: common practice, no source. */
const meterLeads: Ohm = 0.5;
/** Silicon junctions at a milliampere, and what the diode scale may be off: common practice, no source. */
const junctionAtTest: readonly [Volt, Volt] = [0.35, 0.75];
const dropSpread: Volt = 0.2;

/**
 * What a multimeter should read with everything fitted, supply and gate rail disconnected, capacitors discharged.
 *
 * Coil and chokes join the two drains and the rail; the pull-ups join the two gates, so that a pull-down is never read alone.
 */
export function meterChecks(design: Design): readonly MeterCheck[] {
  const { pullUp, pullDown, clamp } = design.gates;
  const isOnRail = pullUp.from === 'supply';
  const coil = coilOf(design);
  const { resistance } = warmCoil({ design, current: 0 });
  const { bank } = design.tank;
  const capacitance = ((bank.capacitor.ratings.capacitance?.value ?? 0) * bank.parallel) / bank.series;
  const spread = capacitorToleranceOf(design);
  const choke = design.chokes.choke.ratings.resistance?.value ?? 0;
  const dimension = 'resistance';
  const ohms = (value: Ohm): MeterCheck['expect'] => ({
    low: value * (1 - resistorTolerance),
    high: value * (1 + resistorTolerance),
    dimension,
  });
  return [
    {
      between: 'coil alone, bank unsoldered',
      range: 'LCR meter',
      expect: { low: coil.inductance * (1 - coil.tolerance), high: coil.inductance * (1 + coil.tolerance), dimension: 'inductance' },
      note: 'at the highest frequency of the meter; leads and metal near by count',
    },
    {
      between: 'bank alone',
      range: 'LCR meter',
      expect: { low: capacitance * (1 - spread), high: capacitance * (1 + spread), dimension: 'capacitance' },
      note: `${bank.parallel} in parallel, ${bank.series} in series; one less reads ${bank.parallel > 1 ? `1/${bank.parallel} less` : 'nothing'}`,
    },
    {
      between: 'drain to drain',
      range: 'ohms',
      expect: { low: 0, high: meterLeads + resistance, dimension },
      note: 'the coil: continuity',
    },
    {
      between: 'supply + to each drain',
      range: 'ohms',
      expect: { low: 0, high: meterLeads + choke + resistance, dimension },
      note: 'the choke: continuity',
    },
    {
      between: 'supply + to supply − (a drain to its source reads the same)',
      range: 'ohms',
      expect: isOnRail && pullDown !== undefined ? ohms((pullUp.resistance + pullDown) / 2) : 'open',
      note: 'plus lead on +; bulk capacitor charges first. Low: a shorted switch. A meter of more than 2 V may turn the switches on',
    },
    {
      between: 'supply − to supply +',
      range: 'diode',
      expect: { low: junctionAtTest[0], high: junctionAtTest[1], dimension: 'voltage' },
      note: 'plus lead on −: both body diodes',
    },
    {
      between: 'each gate to its source',
      range: 'ohms',
      expect: pullDown === undefined ? 'open' : ohms(1 / (1 / pullDown + 1 / (2 * pullUp.resistance + pullDown))),
      note:
        pullDown === undefined
          ? 'no pull-down: open once the gate has charged'
          : 'its pull-down, in parallel with the other through both pull-ups; the two gates read the same',
    },
    {
      between: `${isOnRail ? 'supply +' : 'gate rail'} to each gate`,
      range: 'ohms',
      expect: ohms(pullDown === undefined ? pullUp.resistance : 1 / (1 / pullUp.resistance + 1 / (pullUp.resistance + 2 * pullDown))),
      note: 'its pull-up; plus lead on the rail, so that the cross diode stays out of it',
    },
    ...(clamp === undefined
      ? []
      : [
          {
            between: 'each source to its gate',
            range: 'diode' as const,
            expect: { low: junctionAtTest[0], high: junctionAtTest[1], dimension: 'voltage' as const },
            note: `plus lead on the source: ${clamp.name} forward; reversed it must not read a short`,
          },
        ]),
    crossDiodes({ design, isOnRail }),
  ];
}

function crossDiodes({ design, isOnRail }: { design: Design; isOnRail: boolean }): MeterCheck {
  const { crossDiode, pullUp } = design.gates;
  const between = 'each gate to the other drain';
  const stated = crossDiode.ratings.forwardVoltage;
  const statedCurrent = stated?.at?.['forwardCurrent'];
  const drop =
    stated === undefined || statedCurrent === undefined
      ? (junctionAtTest[0] + junctionAtTest[1]) / 2
      : diodeDrop({ current: diodeTestCurrent, statedDrop: stated.value, statedCurrent });
  const beside = isOnRail ? diodeTestCurrent * pullUp.resistance : Infinity;
  if (beside < drop) {
    return {
      between,
      range: 'diode',
      expect: { low: 0.8 * beside, high: 1.2 * beside, dimension: 'voltage' },
      note: `the pull-up lies across ${crossDiode.name} and reads this both ways: lift one end of the diode to test it`,
    };
  }
  return {
    between,
    range: 'diode',
    // a stated forward voltage is a highest one
    expect: { low: Math.min(junctionAtTest[0], drop), high: Math.min(drop + dropSpread, beside), dimension: 'voltage' },
    note: `plus lead on the gate: ${crossDiode.name} forward; reversed ${isOnRail ? 'the pull-up' : 'open'}`,
  };
}
