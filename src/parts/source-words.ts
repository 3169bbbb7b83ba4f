import { ratingSources } from './part.ts';
import type { RatingSource } from './part.ts';

const meanings: Readonly<Record<RatingSource, string>> = {
  'data sheet': 'read in the data sheet of the part',
  sibling: 'data sheet of the same die in another case',
  build: 'published notes of somebody who built with it',
  practice: 'common practice, no source',
  memory: 'recalled, not read again',
  class: 'typical of the generic class of part',
  derived: 'computed from other ratings',
  project: 'given in the project or part file without a source',
};

/**
 * What the sources among some ratings mean, each once, in one sentence.
 *
 * @param sources  in any order, repeated or not
 * @returns `class: typical of the generic class of part; memory: recalled, not read again`; empty for none
 *
 * @example sourceWords(['memory', 'memory']) // 'memory: recalled, not read again'
 */
export function sourceWords(sources: readonly RatingSource[]): string {
  return ratingSources
    .filter((source) => sources.includes(source))
    .map((source) => `${source}: ${meanings[source]}`)
    .join('; ');
}
