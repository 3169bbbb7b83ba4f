import { nominalCorner } from '../../src/driver/corner.ts';
import { operatingPoint, type OperatingPoint } from '../../src/driver/operating-point.ts';
import type { Design } from '../../src/project/design.ts';
import { designOf } from '../checks/reviewed.ts';

/** A design drawn at random, in SI; null where a part is left out. The keys are those of tests/oracle/random_designs.py. */
export interface RandomDesign {
  readonly L: number;
  readonly C: number;
  readonly V: number;
  readonly coilResistance: number;
  readonly load: number;
  readonly arrangement: 'two' | 'centre-tap';
  readonly riseTime: number;
  readonly sourceResistance: number;
  readonly choke: number;
  readonly chokeResistance: number;
  readonly onResistance: number;
  readonly constant: number;
  readonly threshold: number;
  readonly ciss: number;
  readonly crss: number;
  readonly coss: number;
  readonly mismatch: number;
  readonly pullUp: number;
  readonly pullDown: number | null;
  readonly clamp: number | null;
  readonly clampResistance: number;
  readonly rail: number | null;
  readonly hold: boolean;
  readonly forwardVoltage: number;
  readonly limit: number | null;
  readonly bulk: number | null;
  readonly lead: number | null;
}

/** Drain current at which the transconductance is stated. */
const statedCurrent = 10;

/** A random design as a project file: nothing but its own values, no tolerance, switches that do not change with temperature. */
export function projectText(d: RandomDesign): string {
  const given = (text: string, value: number | null, unit: string): string => (value === null ? '' : `, ${text}: ${value} ${unit}`);
  const transconductance = Math.sqrt(2 * d.constant * statedCurrent);
  const clamp =
    d.clamp === null
      ? ''
      : `, clamp: {zenerVoltage: ${d.clamp} V, tolerance: 0 %, power: 1 W, impedance: ${d.clampResistance} ohm, testCurrent: 20 mA}`;
  return `tankproof: 1
supply: {voltage: ${d.V} V, riseTime: ${d.riseTime} s, resistance: ${d.sourceResistance} ohm${given('currentLimit', d.limit, 'A')}${given('bulkCapacitance', d.bulk, 'F')}${given('leadInductance', d.lead, 'H')}}
chokes: {arrangement: ${d.arrangement}, inductance: ${d.choke} H, resistance: ${d.chokeResistance} ohm, saturationCurrent: 1000 A}
tank:
  coil: {inductance: ${d.L} H, resistance: ${d.coilResistance} ohm}
  bank: {part: {capacitance: ${d.C} F, voltageDc: 630 V, lossTangent: 0, tolerance: 0 %}}
loads: [{name: load, parallelResistance: ${d.load} ohm}]
switches:
  part: {drainVoltage: 900 V, onResistance: ${d.onResistance} ohm, onResistanceAt: {gateVoltage: 10 V, drainCurrent: ${statedCurrent} A}, onResistanceFactor: 1.0000001, thresholdMin: ${d.threshold - 1} V, thresholdMax: ${d.threshold + 1} V, thresholdTypical: ${d.threshold} V, thresholdDrift: -1e-9 V/K, gateVoltage: 20 V, junctionTemperature: 175 degC, junctionToCase: 0.01 K/W, caseToSink: 0.01 K/W, transconductance: ${transconductance} S, inputCapacitance: ${d.ciss} F, outputCapacitance: ${d.coss} F, reverseTransferCapacitance: ${d.crss} F, gateCharge: 100 nC}
  heatsink: 0.01 K/W
gates: {pullUp: {resistance: ${d.pullUp} ohm, power: 100 W, from: ${d.rail === null ? 'supply' : `${d.rail} V`}${d.hold ? ', hold: true' : ''}}${given('pullDown', d.pullDown, 'ohm')}${clamp}, crossDiode: {reverseVoltage: 1000 V, forwardVoltage: {value: ${d.forwardVoltage} V, at: {forwardCurrent: 1 A}}, recoveryTime: 50 ns}}
environment: {ambient: 25 degC, access: trained}
`;
}

/** The design with its only load at nominal values. */
export function nominal(d: RandomDesign): { readonly design: Design; readonly point: OperatingPoint } {
  const design = designOf(projectText(d));
  return { design, point: operatingPoint({ design, load: design.loads[0]!, corner: nominalCorner }) };
}
