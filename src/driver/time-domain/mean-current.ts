import type { Ampere, Ratio, Second } from '../../units/si.ts';

/** Means of a current over windows that follow each other. */
export interface MeanCurrent {
  /** Of the last whole window. */
  readonly last: Ampere | undefined;
  /** Of the whole window before that. */
  readonly before: Ampere | undefined;
  /** Whether the second half of that window is no more than so many times the first. */
  isSteadyWithin(most: Ratio): boolean;
  /** Whether there are two windows and the last is no more than so many times the one before. */
  isSteady(most: Ratio): boolean;
  /** A current at a time; the windows follow each other from `from`, and anew where that changes. */
  see(time: Second, current: Ampere, from: Second): void;
}

/**
 * Means of a current over windows of a given length: where it oscillates slowly, whole periods of that tell whether it rises.
 *
 * @param window  length of a window, in s
 */
export function meanCurrent({ window }: { window: Second }): MeanCurrent {
  return new WindowedMean(window / 2);
}

class WindowedMean implements MeanCurrent {
  last: Ampere | undefined = undefined;
  before: Ampere | undefined = undefined;
  private readonly halfWindow: Second;
  /** Means of half windows, the first first. */
  private halves: Ampere[] = [];
  private begin: Second = Infinity;
  private opened: Second = Infinity;
  private charge = 0;
  private seenAt: Second = 0;

  constructor(halfWindow: Second) {
    this.halfWindow = halfWindow;
  }

  isSteadyWithin(most: Ratio): boolean {
    const end = this.wholeEnd();
    return end >= 2 && this.halves[end - 1]! <= most * this.halves[end - 2]!;
  }

  isSteady(most: Ratio): boolean {
    return this.last !== undefined && this.before !== undefined && this.last <= most * this.before;
  }

  see(time: Second, current: Ampere, from: Second): void {
    if (from !== this.begin) {
      this.begin = from;
      this.opened = Infinity;
      this.halves = [];
      this.last = this.before = undefined;
    }
    if (this.opened < Infinity) this.charge += current * (time - this.seenAt);
    else if (time >= from) {
      this.opened = time;
      this.charge = 0;
    }
    if (time - this.opened >= this.halfWindow) {
      this.halves.push(this.charge / (time - this.opened));
      this.last = this.meanBefore(this.wholeEnd());
      this.before = this.meanBefore(this.wholeEnd() - 2);
      this.opened = time;
      this.charge = 0;
    }
    this.seenAt = time;
  }

  /** Number of half windows that make up whole ones. */
  private wholeEnd(): number {
    return this.halves.length - (this.halves.length % 2);
  }

  private meanBefore(end: number): Ampere | undefined {
    return end < 2 ? undefined : (this.halves[end - 2]! + this.halves[end - 1]!) / 2;
  }
}
