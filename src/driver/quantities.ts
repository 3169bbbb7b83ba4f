import type { Dimension } from '../units/dimension.ts';
import type { Analysis, Case } from './analysis.ts';
import { steadyTemperature } from './coil-heat.ts';
import { isKnown, type Maybe } from './known.ts';
import { holdOffAt, totalLoss } from './switch-heat.ts';
import { switchModelOf } from './switch-model.ts';

/** A nominal number of the driver with one load. `value` is null where it could not be computed, with the reason. */
export interface Quantity {
  readonly id: string;
  readonly value: number | null;
  readonly dimension: Dimension;
  /** Name of the load. */
  readonly case: string;
  readonly reason?: string;
}

/** The nominal quantities of every load, in the order of the format's list. */
export function quantitiesOf(analysis: Analysis): readonly Quantity[] {
  return analysis.nominal.flatMap((instance) => loadQuantities({ analysis, instance }));
}

const notComputed = { unknown: 'not computed at this corner' };

function peakOf(transient: Case['switchOn']): Maybe {
  if (transient === undefined) return notComputed;
  if ('unknown' in transient) return transient;
  return transient.doubt === undefined ? transient.drainPeak : { unknown: transient.doubt };
}

function loadQuantities({ analysis, instance }: { analysis: Analysis; instance: Case }): readonly Quantity[] {
  const { point, switchOn, loadRemoval } = instance;
  const { coil, tank, running, gate } = point;
  const quantity = (id: string, dimension: Dimension, value: Maybe): Quantity => ({
    id,
    dimension,
    case: point.load.name,
    ...(isKnown(value) ? { value } : { value: null, reason: value.unknown }),
  });
  const whileRunning = (id: string, dimension: Dimension, value: (state: NonNullable<typeof running>) => Maybe): Quantity =>
    quantity(
      id,
      dimension,
      running === undefined ? { unknown: `it does not oscillate at a Q of ${tank.quality.toPrecision(2)}` } : value(running),
    );
  return [
    quantity('tank.resonance', 'frequency', tank.resonance),
    whileRunning('tank.frequency', 'frequency', ({ frequency }) => frequency),
    quantity('tank.inductance', 'inductance', tank.inductance),
    quantity('tank.capacitance', 'capacitance', tank.capacitance),
    quantity('tank.resistance', 'resistance', tank.parallelResistance),
    quantity('tank.impedance', 'resistance', tank.impedance),
    quantity('tank.quality', 'count', tank.quality),
    whileRunning('tank.currentPeak', 'current', ({ tankCurrentPeak }) => tankCurrentPeak),
    whileRunning('tank.currentRms', 'current', ({ tankCurrentPeak }) => tankCurrentPeak / Math.SQRT2),
    whileRunning('tank.voltagePeak', 'voltage', ({ tankPeak }) => tankPeak),
    whileRunning('drain.peak', 'voltage', ({ drainPeak }) => drainPeak),
    whileRunning('drain.peakAtSwitchOn', 'voltage', () => peakOf(switchOn)),
    whileRunning('drain.peakAtLoadRemoval', 'voltage', () => peakOf(loadRemoval)),
    whileRunning('supply.current', 'current', ({ supplyCurrent }) => supplyCurrent),
    whileRunning('supply.power', 'power', ({ supplyCurrent, supplyVoltage }) => supplyCurrent * supplyVoltage),
    whileRunning('bank.currentPerCapacitor', 'current', ({ currentPerCapacitor }) => currentPerCapacitor),
    whileRunning('bank.lossPerCapacitor', 'power', ({ lossPerCapacitor }) => lossPerCapacitor),
    whileRunning('bank.rise', 'temperatureRise', ({ bankRise }) => bankRise),
    quantity('coil.resistance', 'resistance', tank.coilResistance),
    whileRunning('coil.loss', 'power', ({ coilLoss }) => coilLoss),
    whileRunning('coil.temperature', 'temperature', () => steadyTemperature(coil)),
    whileRunning('switch.resistance', 'resistance', ({ onResistance }) => onResistance),
    whileRunning('switch.loss', 'power', ({ losses }) =>
      losses === 'latched' ? { unknown: 'the pair latches' } : 'unknown' in losses ? losses : totalLoss(losses),
    ),
    whileRunning('switch.temperature', 'temperature', ({ junction }) =>
      'unknown' in junction
        ? junction
        : junction.found
          ? junction.temperature
          : { unknown: junction.why === 'runaway' ? 'thermal runaway: no steady temperature' : 'the pair latches while it warms up' },
    ),
    whileRunning('choke.ripple', 'current', ({ chokeRipple }) => chokeRipple),
    whileRunning('choke.peak', 'current', ({ chokePeak }) => chokePeak),
    quantity('gate.high', 'voltage', gate.high),
    whileRunning('gate.riseTime', 'time', ({ gateRise }) => (gateRise === 'never' ? { unknown: 'the gate never gets there' } : gateRise)),
    whileRunning('holdOff.running', 'voltage', ({ holdOff }) => ('unknown' in holdOff ? holdOff : holdOff.value)),
    whileRunning('holdOff.atSwitchOn', 'voltage', ({ electricalJunction, junction }) => {
      if (switchOn === undefined) return notComputed;
      if ('unknown' in switchOn) return switchOn;
      if (switchOn.doubt !== undefined) return { unknown: switchOn.doubt };
      if ('unknown' in junction) return junction;
      const model = switchModelOf(analysis.design);
      const holdOff = holdOffAt({ model, gate, junction: electricalJunction, current: switchOn.supplyPeak });
      return 'unknown' in holdOff ? holdOff : holdOff.value;
    }),
  ];
}
