import type { Verdict } from '../../checks/judge.ts';

/** The class that colours a verdict. */
export const verdictClasses: Readonly<Record<Verdict, string>> = { pass: 'pass', warn: 'warn', 'not assessed': 'open', fail: 'fail' };

/** Shapes of the verdicts, each told from the others without its colour; they stand once in a page and are referred to. */
export const markSymbols = `<svg class="symbols" width="0" height="0" aria-hidden="true" focusable="false"><defs>
<symbol id="mark-pass" viewBox="0 0 12 12"><path d="M1.5 6.5 4.6 9.6 10.5 2.8" fill="none" stroke="currentColor" stroke-width="2"/></symbol>
<symbol id="mark-warn" viewBox="0 0 12 12"><path d="M6 1 11.5 11H.5Z" fill="currentColor"/></symbol>
<symbol id="mark-fail" viewBox="0 0 12 12"><path d="M2 2 10 10M10 2 2 10" fill="none" stroke="currentColor" stroke-width="2.4"/></symbol>
<symbol id="mark-open" viewBox="0 0 12 12"><circle cx="6" cy="6" r="4.4" fill="none" stroke="currentColor" stroke-width="1.6" stroke-dasharray="2.2 1.6"/></symbol>
</defs></svg>`;

/** A verdict as its shape and its word, in its colour. */
export function verdictTag(verdict: Verdict): string {
  return tag(verdictClasses[verdict], verdict);
}

/** Of a file that could not be reviewed. */
export const refusedTag = tag('fail', 'could not run');

function tag(name: string, word: string): string {
  return `<span class="verdict ${name}"><svg class="mark" aria-hidden="true" focusable="false"><use href="#mark-${name}"/></svg> <span class="word">${word}</span></span>`;
}
