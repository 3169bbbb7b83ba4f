import type { Analysis, Case } from '../driver/analysis.ts';
import type { Dimension } from '../units/dimension.ts';

/** The parts that results are grouped by, in the order of a report. */
export const subjectParts = ['switches', 'gates', 'bank', 'coil', 'chokes', 'supply', 'oscillation', 'people'] as const;
export type SubjectPart = (typeof subjectParts)[number];

/** The text that `explain` prints. */
export interface CheckDocs {
  readonly what: string;
  readonly why: string;
  readonly formula: string;
  readonly source: string;
  readonly remedy: string;
  /** What the shares of the policy are taken of, where that is no rating of the part. */
  readonly rated?: string;
  /** Which parts take the `other` levels of the policy. */
  readonly others?: string;
  /** What else to know of the levels: a sentence. */
  readonly levels?: string;
}

/** What a remedy can name: what the judge made of the value, and what the bank needs. */
export interface RemedyInput {
  readonly warnAt: number;
  readonly limit: number;
  /** In words, the bank of the same part that passes every check of the bank at once, or that there is none. */
  readonly passingBank: () => string;
}

/** A value to be held against a limit. */
export interface Measured {
  readonly kind: 'measured';
  readonly value: number;
  /** What the policy's shares are taken of; absent where the policy states quantities. */
  readonly rating?: number | undefined;
  /** Limits that come from the circuit instead of the policy. */
  readonly levels?: { readonly warnAt: number; readonly limit: number; readonly failAt: number } | undefined;
  /** Takes the policy's levels for parts of another kind, see `other` in shared/limits.yaml. */
  readonly other?: boolean | undefined;
  /** Multiplies the policy's quantities. */
  readonly strictness?: number | undefined;
  /** Found in the time domain, so that the range of the closed forms does not count. */
  readonly timed?: boolean | undefined;
  /** Why the value may be too low: it is no basis for a pass, a fail it still is. */
  readonly doubt?: string | undefined;
}

/** A state that destroys the part or cannot exist, without a number to compare. */
export interface Hopeless {
  readonly kind: 'hopeless';
  readonly reason: string;
}

/** Data is missing or the model does not apply. */
export interface Unassessed {
  readonly kind: 'unassessed';
  readonly reason: string;
}

/** One fact about one part in one case. A finding never says how good it is: that is the judge's. */
export type Finding = (Measured | Hopeless | Unassessed) & {
  /** The moment, such as `at switch-on`; empty for running. */
  readonly moment?: string | undefined;
  /** Key path of the project file that set the value. */
  readonly path: string;
  /** Where the numbers come from, one statement each; made for the worst case only. */
  readonly basis?: (() => readonly string[]) | undefined;
  /** What to change, with a number where one can be computed. */
  readonly remedy?: ((input: RemedyInput) => string | undefined) | undefined;
};

/** What a check looks at: one load at one corner. */
export interface CheckInput {
  readonly analysis: Analysis;
  readonly instance: Case;
}

/** One check: facts about one limited quantity of one part. */
export interface Check {
  readonly id: string;
  readonly part: SubjectPart;
  readonly title: string;
  readonly since: string;
  readonly dimension: Dimension;
  readonly sense: 'at-most' | 'at-least';
  /** Which closed form the value rests on, so that its range applies: the running state, the envelope too, or none. */
  readonly model: 'running' | 'none';
  readonly docs: CheckDocs;
  /** The part in words, such as `switch IRFP250N`. */
  readonly subject: (analysis: Analysis) => string;
  /** Nothing where the design has no such part. */
  readonly run: (input: CheckInput) => readonly Finding[];
}

/** Declares a check; gives its literal the right types. */
export function defineCheck(check: Check): Check {
  return check;
}
