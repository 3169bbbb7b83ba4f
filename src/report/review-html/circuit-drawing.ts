import type { CircuitOutline } from '../../studies/circuit-outline.ts';
import type { Result } from '../../checks/result.ts';
import { escaped } from '../page-html.ts';
import { drawnStandings, type DrawnPart, type DrawnStanding } from './circuit-parts.ts';
import { resultPhrase } from './result-phrase.ts';
import { verdictClasses, verdictTag } from './verdict-tag.ts';

const [width, height] = [1000, 560];
/** The circuit is the same on both sides of the middle. */
const mirrored = (body: string): string => `${body}<g transform="translate(${width} 0) scale(-1 1)">${body}</g>`;

/** The circuit with every part in the colour of its verdict, and its stress beside it; the same as a table below. */
export function circuitDrawing({
  outline,
  results,
  prefix,
}: {
  outline: CircuitOutline;
  results: readonly Result[];
  prefix: string;
}): string {
  const standings = drawnStandings({ outline, results });
  return `<figure class="drawing"><div class="scroll" tabindex="0" role="group" aria-label="Drawing of the circuit">
<svg viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${prefix}circuit-title"><title id="${prefix}circuit-title">Circuit of the driver: ${escaped(summary(standings))}. The table below says the same.</title>
${symbols({ outline, standings })}
${standings.map((standing) => tags({ ...standing, outline })).join('')}
${standings.map(box).join('\n')}
</svg></div>
<figcaption>Every part in the colour of its gravest check, with the figure that comes closest: thick outline fails, dashed outline is not assessed. What people can touch is among the checks below.</figcaption></figure>
${table({ standings, prefix })}`;
}

function summary(standings: readonly DrawnStanding[]): string {
  return standings.map(({ part, worst }) => `${part} ${worst?.verdict ?? 'not assessed'}`).join(', ');
}

function stressOf(worst: Result | undefined): string {
  if (worst === undefined) return 'no check';
  return worst.value === null ? 'no figure' : resultPhrase(worst);
}

function table({ standings, prefix }: { standings: readonly DrawnStanding[]; prefix: string }): string {
  const rows = standings.map(({ number, part, name, worst }) => {
    const check = worst === undefined ? 'none' : `<a href="#${prefix}${worst.id}">${worst.id}</a>`;
    return `<tr><th scope="row">${number} ${part}</th><td>${escaped(name)}</td><td>${verdictTag(worst?.verdict ?? 'not assessed')}</td><td>${check}</td><td>${escaped(stressOf(worst))}</td></tr>`;
  });
  return `<div class="scroll" tabindex="0" role="group" aria-label="Parts of the drawing"><table><caption>Parts of the drawing</caption><thead><tr><th scope="col">part</th><th scope="col">which</th><th scope="col">verdict</th><th scope="col">gravest, closest check</th><th scope="col">stress</th></tr></thead><tbody>${rows.join('')}</tbody></table></div>`;
}

const boxWidth = 240;
const boxHeight = 118;

function box({ number, part, name, worst }: DrawnStanding): string {
  const isLeft = number <= 4;
  const [x, y] = [isLeft ? 4 : width - boxWidth - 4, 12 + ((number - 1) % 4) * (boxHeight + 16)];
  const verdict = worst?.verdict ?? 'not assessed';
  const shape = verdictClasses[verdict];
  const line = (text: string, row: number, more = ''): string =>
    `<text x="${x + 12}" y="${y + 24 + row * 21}"${more}>${escaped(shortened(text))}</text>`;
  return `<g class="box ${shape}"><rect x="${x}" y="${y}" width="${boxWidth}" height="${boxHeight}" rx="3"/>${line(`${number}  ${part}`, 0, ' class="name"')}${line(name, 1)}<svg class="mark" x="${x + 12}" y="${y + 55}" width="12" height="12"><use href="#mark-${shape}"/></svg><text x="${x + 30}" y="${y + 66}" class="word">${verdict}</text>${worst === undefined ? '' : line(worst.id, 3)}${line(stressOf(worst), 4)}</g>`;
}

/** As much of a text as a box holds. */
function shortened(text: string): string {
  const letters = [...text];
  return letters.length <= 31 ? text : `${letters.slice(0, 30).join('')}…`;
}

/** Where the numbers stand; pairs have one at each side. */
const tagPlaces: Readonly<Record<DrawnPart, readonly (readonly [number, number])[]>> = {
  supply: [[276, 262]],
  coil: [[580, 150]],
  'pull-ups': [[500, 388]],
  switches: [
    [340, 430],
    [660, 430],
  ],
  chokes: [
    [398, 96],
    [602, 96],
  ],
  bank: [[548, 276]],
  'cross diodes': [
    [406, 376],
    [594, 376],
  ],
  clamps: [
    [404, 490],
    [596, 490],
  ],
};

function tags({ part, number, worst, outline }: DrawnStanding & { outline: CircuitOutline }): string {
  const shape = verdictClasses[worst?.verdict ?? 'not assessed'];
  const places = part === 'chokes' && outline.arrangement === 'centre-tap' ? ([[530, 98]] as const) : tagPlaces[part];
  return places
    .map(
      ([x, y]) =>
        `<g class="tag ${shape}"><circle cx="${x}" cy="${y}" r="11"/><text x="${x}" y="${y + 5}" text-anchor="middle">${number}</text></g>`,
    )
    .join('');
}

function symbols({ outline, standings }: { outline: CircuitOutline; standings: readonly DrawnStanding[] }): string {
  const shape = (part: DrawnPart): string => {
    const found = standings.find((standing) => standing.part === part);
    return `part ${verdictClasses[found?.worst?.verdict ?? 'not assessed']}`;
  };
  const { arrangement, hasBulk, pullDown, clamp } = outline;
  const bulk = hasBulk ? `<path d="M700 50V292M700 308V540"/><path class="${shape('supply')}" d="M684 292H716M684 308H716"/>` : '';
  const ground = `<path d="M300 540H700M500 540V548M486 548H514M491 553H509"/>`;
  const left = `
<path d="M370 ${arrangement === 'two' ? 150 : 190}V396H388M370 540V444H388M388 420H370V444M400 420H470M470 420V402M470 366V352"/>
<path class="solid" d="M388 420l-9 -4v8z"/><path class="arrow" d="M463 352L470 343L477 352Z"/>
<path d="M430 420V378M430 352V334L630 290"/>
<g class="${shape('switches')}"><path d="M388 390V403M388 413V427M388 437V450M400 394V446"/></g>
<g class="${shape('pull-ups')}"><rect x="463" y="366" width="14" height="36"/></g>
<g class="${shape('cross diodes')}"><path d="M418 378H442L430 354ZM418 352H442"/></g>
${clamp === undefined ? '' : `<path d="M430 420V472M430 500V540"/><g class="${shape('clamps')}"><path d="M418 500H442L430 476ZM414 480L418 474H442L446 468"/></g>`}
${pullDown === undefined ? '' : `<path d="M470 420V460M470 500V540"/><rect class="plain" x="463" y="460" width="14" height="40"/>`}
<circle class="node" cx="430" cy="420" r="3"/><circle class="node" cx="370" cy="190" r="3"/><circle class="node" cx="370" cy="250" r="3"/><circle class="node" cx="370" cy="290" r="3"/>`;
  const twoChokes = `<path d="M370 50V66M370 130V150M370 150V190"/><path class="${shape('chokes')} open-path" d="M370 66${arcs({ count: 4, step: 16, down: true })}"/>`;
  const oneChoke = `<path d="M500 50V66M500 130V190"/><path class="${shape('chokes')} open-path" d="M500 66${arcs({ count: 4, step: 16, down: true })}"/>`;
  return `<g class="wires">
<path d="M300 50H700"/><path d="M300 50V284M300 316V540"/>${ground}${bulk}
<g class="${shape('supply')}"><path d="M282 284H318M290 295H310M282 306H318M290 316H310"/></g>
${arrangement === 'two' ? mirrored(twoChokes) : oneChoke}
${mirrored(left)}
<path d="M370 190H436M564 190H630M370 250H492M508 250H630"/>
<path class="${shape('coil')} open-path" d="M436 190${arcs({ count: 8, step: 16, down: false })}"/>
<path class="${shape('bank')}" d="M492 230V270M508 230V270"/>
</g><g class="notes"><text x="500" y="339" text-anchor="middle">gate rail</text><text x="358" y="222" text-anchor="end">drain A</text><text x="642" y="222">drain B</text></g>`;
}

/** Turns of an inductor from where the pen is. */
function arcs({ count, step, down }: { count: number; step: number; down: boolean }): string {
  const one = down ? `a8 8 0 0 1 0 ${step}` : `a8 8 0 0 1 ${step} 0`;
  return one.repeat(count);
}
