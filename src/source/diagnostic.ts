import type { Location } from './location.ts';

/**
 * One thing wrong with an input: the fact, the place and what to write instead. Prose for people is made from it in one place
 * (src/report/diagnostics.ts); `id` is permanent.
 */
export interface Diagnostic {
  /** Words joined by hyphens: `unknown-key`. */
  readonly id: string;
  /** The fact: lower case, no full stop. */
  readonly message: string;
  /** A short label for the caret line, such as `expected a voltage`. */
  readonly label?: string;
  /** What to write or do. */
  readonly help?: string;
  /** Where; absent when there is no text (a file that could not be read). */
  readonly at?: Location;
}

/** A value, or everything that was wrong with its text. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly Diagnostic[] };

/** An input that cannot be used. The command line prints it and exits with status 2. */
export class InputError extends Error {
  readonly problems: readonly Diagnostic[];
  constructor(problems: readonly Diagnostic[]) {
    super(problems.map(({ message }) => message).join('\n'));
    this.name = 'InputError';
    this.problems = problems;
  }
}
