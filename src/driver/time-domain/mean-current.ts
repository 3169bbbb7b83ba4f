import type { Ampere, Ratio, Second } from '../../units/si.ts';

/** Means of a current over windows that follow each other. */
export interface MeanCurrent {
  /** Of the last whole window. */
  readonly last: Ampere | undefined;
  /** Of the whole window before that. */
  readonly before: Ampere | undefined;
  /** Whether the second half of that window is no more than so many times the first. */
  readonly isSteadyWithin: (most: Ratio) => boolean;
  /** Whether there are two windows and the last is no more than so many times the one before. */
  readonly isSteady: (most: Ratio) => boolean;
  /** A current at a time; the windows follow each other from `from`, and anew where that changes. */
  readonly see: (moment: { readonly time: Second; readonly current: Ampere; readonly from: Second }) => void;
}

/**
 * Means of a current over windows of a given length: where it oscillates slowly, whole periods of that tell whether it rises.
 *
 * @param window  length of a window, in s
 */
export function meanCurrent({ window }: { window: Second }): MeanCurrent {
  // fields, not variables, which would be made anew at every step
  const now = { begin: Infinity, opened: Infinity, charge: 0, seenAt: 0 };
  /** Means of half windows, the first first. */
  let halves: number[] = [];
  const meanAt = (window: number): number | undefined => {
    const end = halves.length - (halves.length % 2) + 2 * window;
    return end < 2 ? undefined : (halves[end - 2]! + halves[end - 1]!) / 2;
  };
  return {
    get last() {
      return meanAt(0);
    },
    get before() {
      return meanAt(-1);
    },
    isSteadyWithin: (most) => {
      const end = halves.length - (halves.length % 2);
      return end >= 2 && halves[end - 1]! <= most * halves[end - 2]!;
    },
    isSteady: (most) => {
      const [last, before] = [meanAt(0), meanAt(-1)];
      return last !== undefined && before !== undefined && last <= most * before;
    },
    see: ({ time, current, from }) => {
      if (from !== now.begin) {
        now.begin = from;
        now.opened = Infinity;
        halves = [];
      }
      if (now.opened < Infinity) now.charge += current * (time - now.seenAt);
      else if (time >= from) {
        now.opened = time;
        now.charge = 0;
      }
      if (time - now.opened >= window / 2) {
        halves.push(now.charge / (time - now.opened));
        now.opened = time;
        now.charge = 0;
      }
      now.seenAt = time;
    },
  };
}
