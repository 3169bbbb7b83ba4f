import type { Second } from '../../units/si.ts';
import { place } from './circuit.ts';
import type { Moment } from './run.ts';

/** What is recorded of a run. */
export const tracks = ['drainA', 'drainB', 'gateA', 'gateB', 'supply'] as const;
export type Track = (typeof tracks)[number];

/** The tracks of a state, in their order. */
function trackValues(state: Float64Array): readonly number[] {
  return [
    state[place.drainA]!,
    state[place.drainB]!,
    state[place.gateA]!,
    state[place.gateB]!,
    state[place.chokeA]! + state[place.chokeB]!,
  ];
}

/** A run in slices of equal length; of each slice the lowest and highest value of every track. */
export interface Recording {
  readonly slice: Second;
  readonly count: number;
  readonly lowest: Readonly<Record<Track, Float64Array>>;
  readonly highest: Readonly<Record<Track, Float64Array>>;
  /** Where a stretch in which the rail only creeps up is left out: at this time of the recording, for so long. */
  readonly gap?: { readonly at: Second; readonly length: Second };
}

/** When it was, at a time of a recording. */
export function timeIn({ gap }: Recording, recorded: Second): Second {
  return gap !== undefined && recorded > gap.at ? recorded + gap.length : recorded;
}

/**
 * Records a run of unknown length in bounded memory: when its slices are used up, each two are joined and the next ones are twice as
 * long. No peak is lost.
 *
 * @param slices  most of them, an even number
 * @param first   length of a slice to begin with, in s
 */
export function recorder({ slices, first }: { slices: number; first: Second }): {
  see: (moment: Moment) => void;
  /** Of a run that ended at a time. */
  recording: (of: { readonly endedAt: Second }) => Recording;
} {
  const fresh = (value: number): Record<Track, Float64Array> =>
    Object.fromEntries(tracks.map((track) => [track, new Float64Array(slices).fill(value)])) as Record<Track, Float64Array>;
  const [lowest, highest] = [fresh(Infinity), fresh(-Infinity)];
  let [slice, before, offset]: [Second, Second, Second] = [first, 0, 0];
  const join = (): void => {
    for (const track of tracks) {
      const [low, high] = [lowest[track], highest[track]];
      for (let i = 0; i < slices / 2; i++) {
        low[i] = Math.min(low[2 * i]!, low[2 * i + 1]!);
        high[i] = Math.max(high[2 * i]!, high[2 * i + 1]!);
      }
      low.fill(Infinity, slices / 2);
      high.fill(-Infinity, slices / 2);
    }
    slice *= 2;
  };
  const see = ({ time, state }: Moment): void => {
    if (time < before) offset += before;
    before = time;
    const now = offset + time;
    while (now >= slice * slices) join();
    const index = Math.floor(now / slice);
    const values = trackValues(state);
    tracks.forEach((track, i) => {
      const value = values[i]!;
      if (value < lowest[track][index]!) lowest[track][index] = value;
      if (value > highest[track][index]!) highest[track][index] = value;
    });
  };
  return {
    see,
    recording: ({ endedAt }) => {
      const count = Math.min(slices, Math.ceil((offset + before) / slice));
      // times begin anew where a slow rail is taken up again
      const gap = offset === 0 ? {} : { gap: { at: offset, length: Math.max(0, endedAt - (offset + before)) } };
      return { slice, count, lowest, highest, ...gap };
    },
  };
}

/** The end of a run, step by step. */
export interface Tail {
  /** In s, ascending, from the first that is kept. */
  readonly times: readonly Second[];
  readonly values: Readonly<Record<Track, readonly number[]>>;
}

/**
 * Keeps the last stretch of a run of unknown length.
 *
 * @param length  of the stretch, in s
 */
export function tailRecorder({ length }: { length: Second }): { see: (moment: Moment) => void; tail: () => Tail } {
  // a cheap watcher: what is past its stretch is cleared away now and then
  const mostSpare = 500;
  let kept: { readonly time: Second; readonly values: readonly number[] }[] = [];
  const see = ({ time, state }: Moment): void => {
    // times begin anew where a slow rail is taken up again
    if (time < (kept.at(-1)?.time ?? 0)) kept = [];
    kept.push({ time, values: trackValues(state) });
    if ((kept[mostSpare]?.time ?? Infinity) < time - length) kept.splice(0, mostSpare);
  };
  const tail = (): Tail => {
    const last = kept.at(-1)?.time ?? 0;
    const end = kept.filter(({ time }) => time >= last - length);
    const first = end[0]?.time ?? 0;
    return {
      times: end.map(({ time }) => time - first),
      values: Object.fromEntries(tracks.map((track, i) => [track, end.map(({ values }) => values[i]!)])) as Record<Track, number[]>,
    };
  };
  return { see, tail };
}
