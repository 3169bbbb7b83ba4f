import type { Second } from '../../units/si.ts';

/** The highest values of quantities that are seen at steps. */
export interface Crests {
  readonly highest: Float64Array;
  readonly at: Float64Array;
  /** All quantities at one time. */
  see(time: Second, values: Float64Array): void;
}

/**
 * Refines crests between steps: the vertex of the parabola through three neighbours of which the middle one is highest. A parabola
 * through a corner, as where a drain breaks down, would stand above it; it counts for no more than an eighth of the larger fall to a
 * neighbour, which at even steps it never exceeds.
 *
 * @param count  of the quantities
 * @returns the crests above zero, to be shown every step; never below the highest value shown
 */
export function crestsOf(count: number): Crests {
  return new ParabolicCrests(count);
}

class ParabolicCrests implements Crests {
  readonly highest: Float64Array;
  readonly at: Float64Array;
  private readonly times = new Float64Array(2);
  private readonly before: Float64Array;
  private readonly last: Float64Array;

  constructor(count: number) {
    this.highest = new Float64Array(count);
    this.at = new Float64Array(count);
    this.before = new Float64Array(count);
    this.last = new Float64Array(count).fill(-Infinity);
  }

  see(t2: Second, values: Float64Array): void {
    const { highest, at, times, before, last } = this;
    const t0 = times[0]!, t1 = times[1]!; // prettier-ignore
    for (let i = 0; i < highest.length; i++) {
      const v0 = before[i]!, v1 = last[i]!, v2 = values[i]!; // prettier-ignore
      if (v2 > highest[i]!) {
        highest[i] = v2;
        at[i] = t2;
      }
      // not at the first and second time, when v0 is none
      if (v1 >= v0 && v1 >= v2 && v0 + v2 < 2 * v1 && v0 > -Infinity) {
        const rise = (v1 - v0) / (t1 - t0);
        const curvature = ((v2 - v1) / (t2 - t1) - rise) / (t2 - t0);
        const slope = rise + curvature * (t1 - t0);
        const vertex = v1 + Math.min((slope * slope) / (-4 * curvature), (v1 - Math.min(v0, v2)) / 8);
        if (vertex > highest[i]!) {
          highest[i] = vertex;
          at[i] = t1 - slope / (2 * curvature);
        }
      }
      before[i] = v1;
      last[i] = v2;
    }
    times[0] = t1;
    times[1] = t2;
  }
}
