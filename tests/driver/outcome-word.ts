import type { Unknown } from '../../src/driver/known.ts';

/** How an event or a start ended, or why it could not be run. */
export function outcomeWord(event: { readonly outcome: string } | Unknown): string {
  return 'unknown' in event ? event.unknown : event.outcome;
}
