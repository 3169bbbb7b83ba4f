import { escaped } from '../page-html.ts';

/** Which checks were asked for, where not all of them were: beside a verdict, which is theirs alone. */
export function onlyHtml(only: readonly string[]): string {
  if (only.length === 0) return '';
  const ids = [...new Set(only)].join(', ');
  return `<p class="only"><strong>Only these checks were made: ${escaped(ids)}; nothing is said of the others.</strong></p>`;
}

/** Above what looks at every check, though not all of them were asked for. */
export function everyCheckHtml(only: readonly string[] | undefined): string {
  if (only === undefined) return '';
  return '<p>Over the supply voltage every check of the running driver is looked at in closed form, also those that were not asked for.</p>';
}

/** What is to be said of the run as a whole. */
export function notesHtml(notes: readonly string[]): string {
  return notes.map((note) => `<p class="note">note: ${escaped(note)}</p>`).join('');
}
