import { subjectParts } from '../../checks/check.ts';
import type { Policies } from '../../checks/policy.ts';
import { explained } from '../../checks/registry.ts';
import type { Result } from '../../checks/result.ts';
import type { Quantity } from '../../driver/quantities.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { levelsText } from '../levels.ts';
import { escaped } from '../page-html.ts';
import { placeWords, warnsWords, whereWords } from '../result-words.ts';
import { symbolWords } from '../symbols.ts';
import { waiverWords } from '../waiver-words.ts';
import { resultPhrase } from './result-phrase.ts';
import { verdictClasses, verdictTag } from './verdict-tag.ts';

/** Items as a list; nothing for none. */
export function listHtml(items: readonly string[]): string {
  return items.length === 0 ? '' : `<ul>${items.map((item) => `<li>${escaped(item)}</li>`).join('')}</ul>`;
}

/** What does not pass, the gravest first, each with its reason and what to change. */
export function openResults({
  results,
  only,
  prefix,
}: {
  results: readonly Result[];
  /** Ids of the checks that were asked for, where not all of them were. */
  only: readonly string[] | undefined;
  prefix: string;
}): string {
  const order = ['fail', 'not assessed', 'warn'] as const;
  const items = order.flatMap((verdict) => results.filter((result) => result.verdict === verdict));
  if (results.length === 0) return '<p>No check was made: this project has no part for those that were asked for.</p>';
  if (items.length === 0) return only === undefined ? '<p>Every check passes.</p>' : '<p>The checks that were made pass.</p>';
  return `<ul class="open-results">${items.map((result) => openItem({ result, prefix })).join('\n')}</ul>`;
}

function openItem({ result, prefix }: { result: Result; prefix: string }): string {
  const lines = [whereWords(result), result.reason, warnsWords(result)].filter((line) => line !== undefined);
  const basis = result.verdict === 'not assessed' ? [] : result.basis;
  const change = result.remedy === undefined ? '' : `<p class="change">change: ${escaped(result.remedy)}</p>`;
  const waiver = waiverWords(result)
    .map((words) => `<p class="waiver">${escaped(words)}</p>`)
    .join('');
  return `<li class="${verdictClasses[result.verdict]}">${verdictTag(result.verdict)} <a href="#${prefix}${result.id}">${result.id}</a> <span class="figure">${escaped(resultPhrase(result))}</span>${lines.map((line) => `<p>${escaped(line)}</p>`).join('')}${basis.map((line) => `<p class="basis">${escaped(line)}</p>`).join('')}<p class="place">${escaped(placeWords(result))}</p>${change}${waiver}</li>`;
}

/** What the nominal driver does, a column a load. */
export function quantityTable(quantities: readonly Quantity[]): string {
  const loads = [...new Set(quantities.map(({ case: load }) => load))];
  const ids = [...new Set(quantities.map(({ id }) => id))];
  const cell = (id: string, load: string): string => {
    const found = quantities.find((quantity) => quantity.id === id && quantity.case === load);
    if (found === undefined) return '';
    return found.value === null
      ? `not assessed: ${found.reason ?? ''}`
      : formatQuantity({ value: found.value, dimension: found.dimension });
  };
  const rows = ids.map((id) => `<tr><th scope="row">${id}</th>${loads.map((load) => `<td>${escaped(cell(id, load))}</td>`).join('')}</tr>`);
  return `<div class="scroll" tabindex="0" role="group" aria-label="Table of nominal values"><table><caption>Nominal values, no tolerances</caption><thead><tr><th scope="col">quantity</th>${loads.map((load) => `<th scope="col">${escaped(load)}</th>`).join('')}</tr></thead><tbody>${rows.join('')}</tbody></table></div>`;
}

/** Every check by part, with formula, inputs and sources. */
export function checkTables({
  results,
  policies,
  prefix,
  level,
}: {
  results: readonly Result[];
  policies: Policies;
  prefix: string;
  /** Of the headings of the parts. */
  level: number;
}): string {
  const parts = subjectParts
    .map((part) => ({ part, own: results.filter((result) => result.part === part) }))
    .filter(({ own }) => own.length > 0)
    .map(
      ({ part, own }) =>
        `<h${level}>${part}</h${level}>\n<div class="part-checks">${own.map((result) => checkTable({ result, policies, prefix })).join('\n')}</div>`,
    )
    .join('\n');
  return `<div class="checks">${parts}</div>`;
}

function checkTable({ result, policies, prefix }: { result: Result; policies: Policies; prefix: string }): string {
  const { id, title, remedy, reason, basis } = result;
  const known = explained.find((one) => one.id === id);
  const policy = policies.get(id);
  const rows: readonly (readonly [string, string])[] = [
    ['worst case', whereWords(result)],
    ['figure', resultPhrase(result)],
    ['reason', reason ?? ''],
    ['warns', warnsWords(result) ?? ''],
    ['inputs', basis.join('\n')],
    ['set at', placeWords(result)],
    ['change', remedy ?? ''],
    ['waiver', waiverWords(result).join('')],
    ['formula', known?.docs.formula ?? ''],
    ['symbols', known === undefined ? '' : symbolWords({ id, formula: known.docs.formula })],
    [
      'levels',
      known === undefined || policy === undefined
        ? 'set by the circuit itself, as the formula says'
        : levelsText({ policy, dimension: known.dimension, sense: known.sense, docs: known.docs }),
    ],
    ['source', known?.docs.source ?? ''],
  ];
  const body = rows
    .filter(([, text]) => text !== '')
    .map(([name, text]) => `<tr><th scope="row">${name}</th><td>${text.split('\n').map(escaped).join('<br>')}</td></tr>`);
  return `<table class="check" id="${prefix}${id}"><caption>${verdictTag(result.verdict)} <strong>${id}</strong> <span>${escaped(title)}</span></caption><tbody>${body.join('')}</tbody></table>`;
}
