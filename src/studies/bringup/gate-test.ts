import { nominalCorner } from '../../driver/corner.ts';
import { gateNetworkAt } from '../../driver/gate-network.ts';
import { isKnown, whenKnown, type Maybe } from '../../driver/known.ts';
import { switchModelOf } from '../../driver/switch-model.ts';
import { gateHighVoltage } from '../../physics/gate.ts';
import { plateauVoltage } from '../../physics/mosfet.ts';
import type { Design } from '../../project/design.ts';
import type { Ampere, Volt, Watt } from '../../units/si.ts';

/** The gates powered, the power stage not. */
export interface GateTest {
  /** Voltage that is put on the pull-ups. */
  readonly feed: Volt;
  /** Whether the pull-ups hang on the supply, so that the chokes are taken off it for this test. */
  readonly onSupply: boolean;
  /** Limit of the source that feeds the gates: both pull-ups into gates at zero, and a fifth. */
  readonly limit: Ampere;
  /** Gate voltage with the cross diodes lifted, and with the clamp open too. */
  readonly freed: { readonly low: Volt; readonly value: Volt; readonly high: Maybe; readonly unclamped: Volt };
  /** Gate voltage with everything connected: both gates pull their own drain up through the diodes until their switches take the current. */
  readonly tied: { readonly low: Maybe; readonly high: Maybe };
  /** The gate whose own switch is not pulled up, where one cross diode is open. */
  readonly beside: Maybe;
  /** Dc in the clamp and in a pull-up during this test, with what they are rated for; undefined where there is none. */
  readonly clamp?: { readonly power: Maybe; readonly rated: Watt | undefined };
  readonly pullUp: { readonly power: Watt; readonly rated: Watt | undefined };
  /** Highest gate voltage that the switches are rated for. */
  readonly gateRated?: Volt;
  readonly hold: boolean;
}

/** Part of the current that the limit stands above it. */
const above = 1.2;

/** What the gates of a design should read when they alone are powered. */
export function gateTest(design: Design): GateTest {
  const { pullUp, clamp } = design.gates;
  const gate = gateNetworkAt({ design, corner: nominalCorner });
  const { feed } = gate;
  const gateRated = design.switches.mosfet.ratings.gateVoltage?.value;
  return {
    feed,
    onSupply: pullUp.from === 'supply',
    limit: (above * 2 * feed) / pullUp.resistance,
    freed: {
      low: gate.lowestHigh,
      value: gate.high,
      high: gate.peak,
      unclamped: unclampedGate({ design, feed }),
    },
    tied: { low: tiedGate({ design, feed, rating: 'thresholdMin' }), high: tiedGate({ design, feed, rating: 'thresholdMax' }) },
    beside: gate.diodeDrop,
    ...(clamp === undefined
      ? {}
      : {
          clamp: {
            // steady: twice what half of each period makes of it
            power: isKnown(gate.clampPower ?? 0) ? 2 * ((gate.clampPower as number | undefined) ?? 0) : gate.clampPower!,
            rated: clamp.ratings.power?.value,
          },
        }),
    pullUp: { power: (feed - lowestGate({ design, feed })) ** 2 / pullUp.resistance, rated: pullUp.power },
    ...(gateRated === undefined ? {} : { gateRated }),
    hold: pullUp.hold,
  };
}

function tiedGate({ design, feed, rating }: { design: Design; feed: Volt; rating: 'thresholdMin' | 'thresholdMax' }): Maybe {
  const { pullUp, pullDown = Infinity } = design.gates;
  const { mosfet } = design.switches;
  const threshold: Maybe = mosfet.ratings[rating]?.value ?? { unknown: `${mosfet.name} gives no ${rating}` };
  const open = unclampedGate({ design, feed });
  return whenKnown({ threshold, k: switchModelOf(design).channelConstant }, ({ threshold: edge, k }) => {
    const current = Math.max(0, (feed - edge) / pullUp.resistance - edge / pullDown);
    return Math.min(open, plateauVoltage({ threshold: edge, current, channelConstant: k }));
  });
}

/** Pull-up and pull-down alone. */
function unclampedGate({ design: { gates }, feed }: { design: Design; feed: Volt }): Volt {
  const { pullUp, pullDown = Infinity } = gates;
  return gateHighVoltage({ feed, pullUp: pullUp.resistance, pullDown, clamp: Infinity });
}

function lowestGate({ design, feed }: { design: Design; feed: Volt }): Volt {
  const tied = tiedGate({ design, feed, rating: 'thresholdMin' });
  return isKnown(tied) ? tied : unclampedGate({ design, feed: 0 });
}
