import type { Ampere, Ratio, Second } from '../../units/si.ts';

/** Means of a current over windows that follow each other. */
export interface MeanCurrent {
  /** Of the last whole window, and of the one before it. */
  readonly last: Ampere | undefined;
  readonly before: Ampere | undefined;
  /** Whether there are two means and the last is no more than so many times the one before. */
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
  let [begin, opened, charge, seenAt] = [Infinity, Infinity, 0, 0];
  const self: { last: Ampere | undefined; before: Ampere | undefined; isSteady: MeanCurrent['isSteady']; see: MeanCurrent['see'] } = {
    last: undefined,
    before: undefined,
    isSteady: (most) => self.last !== undefined && self.before !== undefined && self.last <= most * self.before,
    see: ({ time, current, from }) => {
      if (from !== begin) {
        [begin, opened] = [from, Infinity];
        self.last = self.before = undefined;
      }
      if (opened < Infinity) charge += current * (time - seenAt);
      if (opened === Infinity && time >= from) [opened, charge] = [time, 0];
      if (time - opened >= window) {
        self.before = self.last;
        self.last = charge / (time - opened);
        [opened, charge] = [time, 0];
      }
      seenAt = time;
    },
  };
  return self;
}
