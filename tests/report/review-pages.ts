import { join } from 'node:path';
import { defaultPolicies, InputError, reviewedFile, sha256 } from '../../src/cli/engine.ts';
import { reviewHtml } from '../../src/report/review-html/page.ts';
import type { Reviewed } from '../../src/report/reviewed.ts';
import { fileWith, root } from '../cli/ran.ts';

/** A file as `check` reviews it, or refuses it. */
export function reviewedAt(path: string, { closedForm = true, only }: { closedForm?: boolean; only?: readonly string[] } = {}): Reviewed {
  try {
    return { file: path, report: reviewedFile({ path, root, policies: defaultPolicies(root), closedForm, only, sheets: true }) };
  } catch (error) {
    if (error instanceof InputError) return { file: path, problems: error.problems };
    throw error;
  }
}

/** One of the examples. */
export function reviewedExample(name: string, options: { closedForm?: boolean; only?: readonly string[] } = {}): Reviewed {
  return reviewedAt(join(root, 'examples', `${name}.yaml`), options);
}

/** Files as one page. */
export function pageOf(reviewed: readonly Reviewed[], notes: readonly string[] = []): string {
  return reviewHtml(reviewed, {
    version: '0.0.0',
    all: false,
    failing: ['fail'],
    notes,
    several: reviewed.length > 1,
    time: '2027-03-31T12:00:00',
    sha256,
  });
}

/** What tries to be more than text wherever a project can say something of its own. */
export const hostile = `</title></script><script>window.broken = 1</script><img src=x onerror="window.broken = 1">`;

/** A project whose names are hostile, with one choke into the middle of the coil and gates fed from the supply. */
export const hostileProject = `tankproof: 1
title: '${hostile}'
supply: {voltage: 15 V, tolerance: 5 %, riseTime: 2 ms, resistance: 50 mohm, currentLimit: 10 A}
chokes: {arrangement: centre-tap, part: choke-100u-10a-sendust}
tank:
  coil: {inductance: 1.8 uH, resistance: 6 mohm, tolerance: 3 %}
  bank: {part: pp-foil-100n-1000v, parallel: 12}
loads:
  - {name: '${hostile}', power: 20 W}
switches: {part: IRFP250N, heatsink: 5 K/W, insulator: 0.5 K/W}
gates:
  pullUp: {resistance: 470 ohm, power: 2 W, from: supply}
  crossDiode: UF4004
`;

/** That project in a file. */
export function hostileFile(): string {
  return fileWith(hostileProject);
}
