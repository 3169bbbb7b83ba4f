import type { Analysis } from '../driver/analysis.ts';
import { noLessThan } from './words.ts';

/** The supply that does not come to its limit in any event that its limit leaves undecided, as words of a remedy; undefined where none is. */
export function largerSupply({ starts = [], events = [] }: Analysis): string | undefined {
  const runs = [...starts, ...events.flatMap(({ loadRemoval, loadApplication, supplyDrop }) => [loadRemoval, loadApplication, supplyDrop])];
  const needs = Math.max(0, ...runs.map((run) => (run !== undefined && 'needs' in run ? (run.needs ?? 0) : 0)));
  return needs === 0
    ? undefined
    : `a supply that gives ${noLessThan({ value: needs, dimension: 'current' })} or more (supply.currentLimit)`;
}
