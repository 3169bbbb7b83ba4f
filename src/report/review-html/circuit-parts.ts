import { verdicts } from '../../checks/judge.ts';
import type { Result } from '../../checks/result.ts';
import type { CircuitOutline } from '../../studies/circuit-outline.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { shareOfLimit } from './limit-share.ts';

/** Parts of the drawing, in the order of their numbers. */
export const drawnParts = ['supply', 'coil', 'pull-ups', 'switches', 'chokes', 'bank', 'cross diodes', 'clamps'] as const;
export type DrawnPart = (typeof drawnParts)[number];

/** Checks of the gates by the part that they load; those of the oscillation and the supply that belong elsewhere. */
const partsById: Readonly<Record<string, DrawnPart>> = {
  'gate-peak-voltage': 'clamps',
  'clamp-power': 'clamps',
  'gate-drive-voltage': 'pull-ups',
  'gate-rise-time': 'pull-ups',
  'pull-up-power': 'pull-ups',
  'cross-diode-voltage': 'cross diodes',
  'cross-diode-recovery': 'cross diodes',
  'cross-diode-current': 'cross diodes',
  'loaded-q': 'coil',
  'rise-time': 'supply',
};

/** The part of the drawing that a check loads; undefined for what people meet. */
export function drawnPartOf({ id, part }: Pick<Result, 'id' | 'part'>): DrawnPart | undefined {
  const own = partsById[id];
  if (own !== undefined) return own;
  switch (part) {
    case 'people':
      return undefined;
    // whether both switches stay on is a matter of the pair
    case 'oscillation':
      return 'switches';
    case 'gates':
      return 'pull-ups';
    default:
      return part;
  }
}

/** A part of the drawing as it stands: its gravest check, of those the one that is closest to its limit. */
export interface DrawnStanding {
  readonly part: DrawnPart;
  readonly number: number;
  readonly name: string;
  /** Undefined where no check looks at it. */
  readonly worst: Result | undefined;
}

/** How every part of the drawing stands. */
export function drawnStandings({ outline, results }: { outline: CircuitOutline; results: readonly Result[] }): readonly DrawnStanding[] {
  const isDrawn = (part: DrawnPart): boolean => part !== 'clamps' || outline.clamp !== undefined;
  return drawnParts.filter(isDrawn).map((part, i) => ({
    part,
    number: i + 1,
    name: nameOf({ outline, part }),
    worst: results.filter((result) => placed({ result, isDrawn }) === part).reduce<Result | undefined>(worse, undefined),
  }));
}

/** Without a clamp its checks are those of the pull-ups, which then set the gate voltage alone. */
function placed({ result, isDrawn }: { result: Result; isDrawn: (part: DrawnPart) => boolean }): DrawnPart | undefined {
  const part = drawnPartOf(result);
  return part === undefined || isDrawn(part) ? part : 'pull-ups';
}

function worse(a: Result | undefined, b: Result): Result {
  if (a === undefined) return b;
  const rank = verdicts.indexOf(b.verdict) - verdicts.indexOf(a.verdict);
  if (rank !== 0) return rank > 0 ? b : a;
  return (shareOfLimit(b) ?? -1) > (shareOfLimit(a) ?? -1) ? b : a;
}

function nameOf({ outline, part }: { outline: CircuitOutline; part: DrawnPart }): string {
  const { gateFeed, parallel, series, switchesEach } = outline;
  const feed = gateFeed === 'supply' ? 'the supply' : formatQuantity({ value: gateFeed, dimension: 'voltage' });
  switch (part) {
    case 'supply':
      return `${formatQuantity({ value: outline.voltage, dimension: 'voltage' })}${outline.hasBulk ? ', bulk capacitor' : ''}`;
    case 'coil':
      return formatQuantity({ value: outline.coilInductance, dimension: 'inductance' });
    case 'pull-ups':
      return `${formatQuantity({ value: outline.pullUp, dimension: 'resistance' })} from ${feed}${outline.gatesHeld ? ', held low' : ''}`;
    case 'switches':
      return switchesEach === 1 ? outline.mosfet : `${switchesEach} × ${outline.mosfet} each`;
    case 'chokes':
      return outline.choke;
    case 'bank':
      return `${series === 1 ? '' : `${series} in series × `}${parallel} × ${outline.capacitor}`;
    case 'cross diodes':
      return outline.crossDiode;
    case 'clamps':
      return outline.clamp ?? 'none';
  }
}
