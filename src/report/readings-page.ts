import type { Result } from '../checks/result.ts';
import { faultEvidence } from '../studies/readings/faults.ts';
import type { Comparison } from '../studies/readings/agreement.ts';
import type { Cause } from '../studies/readings/causes.ts';
import type { Estimate } from '../studies/readings/estimates.ts';
import { isTemperature, readingKinds } from '../studies/readings/observed.ts';
import type { ReadingsStudy } from '../studies/readings/study.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { openReasons } from './open-reasons.ts';
import type { Block, Page } from './page.ts';
import { verdictCounts } from './review-report.ts';

/** Readings against predictions as a page. */
export function readingsPage({ file, title, study }: { file: string; title: string; study: ReadingsStudy }): Page {
  const { comparisons, estimates, causes } = study;
  const off = comparisons.filter(({ verdict }) => verdict === 'disagrees').map(({ key }) => key);
  const compared = comparisons.filter(({ verdict }) => verdict !== 'not compared');
  const verdict =
    compared.length === 0
      ? 'Nothing could be compared.'
      : off.length === 0
        ? 'Every reading that could be compared agrees with its prediction.'
        : `${off.length} of ${compared.length} readings disagree${off.length === 1 ? 's' : ''}: ${off.join(', ')}.`;
  return {
    title: `${file}  ${title}`,
    blocks: [
      { kind: 'paragraph', text: verdict.replace(/^1 of (\d+) readings disagrees/, '1 of $1 readings disagrees') },
      comparisonTable(study),
      ...notes(comparisons),
      { kind: 'heading', text: 'Values as built' },
      { kind: 'paragraph', text: restsOnWords[study.restsOn] },
      { kind: 'list', items: estimates.map((one) => estimateWords(one, study.restsOn)) },
      ...(off.length === 0 ? [] : causeBlocks(causes)),
      { kind: 'heading', text: 'Margins as built' },
      ...marginBlocks(study),
      {
        kind: 'paragraph',
        text: 'Intervals hold in 95 of 100 cases, if uncertainties and tolerances do. These are computed figures; they do not replace the judgement of a licensed practitioner.',
      },
    ],
  };
}

const restsOnWords: Readonly<Record<ReadingsStudy['restsOn'], string>> = {
  tolerances: 'Estimated with what the tolerances say; L, C and R only as far as the readings tell them.',
  cause: 'Estimated with the first of the causes below, everything else within its tolerance.',
  'readings alone': 'No single cause that is looked for explains the readings; estimated with tolerances taken six times as wide.',
};

/** Where the value of an estimate comes from that the readings do not tell. */
const untoldWords: Readonly<Record<ReadingsStudy['restsOn'], string>> = {
  tolerances: 'its tolerance alone',
  cause: 'the first cause and its tolerance',
  'readings alone': 'its tolerance taken six times as wide',
};

const text = ({ key }: Comparison, value: number): string => formatQuantity({ value, dimension: readingKinds[key].dimension });
const width = ({ key }: Comparison, value: number): string =>
  `±${formatQuantity({ value, dimension: isTemperature(key) ? 'temperatureRise' : readingKinds[key].dimension, digits: 2 })}`;

function comparisonTable({ comparisons, load, voltage }: ReadingsStudy): Block {
  return {
    kind: 'table',
    caption: `At ${formatQuantity({ value: voltage, dimension: 'voltage' })}, ${load}; combined: reading, model and tolerances, 95 %`,
    columns: ['reading', 'read', 'predicted', 'combined', 'verdict'],
    rows: comparisons.map((one) => [
      one.key,
      `${text(one, one.value)} ${width(one, one.uncertainty)}${one.stated ? '' : '*'}`,
      one.predicted === null ? '-' : text(one, one.predicted),
      one.combined === null ? '-' : width(one, one.combined),
      one.verdict,
    ]),
  };
}

function notes(comparisons: readonly Comparison[]): readonly Block[] {
  const usual = comparisons.some(({ stated }) => !stated)
    ? [
        '* no uncertainty given: frequency 1 %, voltages 3 %, tank current 5 %, supply currents 2 %, temperatures 2 K (common practice); write {value, uncertainty} for your own',
      ]
    : [];
  const others = comparisons.flatMap(({ key, note }) => (note === undefined ? [] : [`${key}: ${note}`]));
  const items = [...usual, ...others];
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}

function amount({ dimension }: Estimate, value: number): string {
  return dimension === 'product' ? `${(value * 1e12).toPrecision(4)} µH·µF` : formatQuantity({ value, dimension });
}

function estimateWords(one: Estimate, restsOn: ReadingsStudy['restsOn']): string {
  const { name, project, value, low, high, isTold, why } = one;
  const interval = `${amount(one, value)} (${amount(one, low)} to ${amount(one, high)})`;
  const source = isTold ? '' : `, from ${untoldWords[restsOn]}: ${why ?? ''}`;
  return `${name}: ${interval}; project ${amount(one, project)}${source}`;
}

function causeBlocks(causes: readonly Cause[]): readonly Block[] {
  const heading: Block = { kind: 'heading', text: 'Likely causes' };
  if (causes.length === 0)
    return [
      heading,
      { kind: 'paragraph', text: 'None of the causes that are looked for explains the readings better than the tolerances do.' },
    ];
  return [heading, { kind: 'list', items: causes.slice(0, 4).map(causeWords) }];
}

function causeWords({ id, words, explainsAll, evidence }: Cause): string {
  const facts = evidence.map(({ key, read, project, withCause }) => {
    const of = (value: number): string => formatQuantity({ value, dimension: readingKinds[key].dimension });
    const off = isTemperature(key) ? '' : ` (${signed(read / project - 1)})`;
    return `${key} read ${of(read)}${off}, project ${of(project)}, with this ${of(withCause)}`;
  });
  return `${id}: ${words}; explains ${explainsAll ? 'every reading' : 'the readings in part'}. ${facts.join('; ')}. Look: ${faultEvidence[id]}`;
}

function signed(share: number): string {
  return `${share < 0 ? '−' : '+'}${formatQuantity({ value: Math.abs(share), dimension: 'ratio', digits: 2 })}`;
}

/** Margins that are shown although they pass. */
const tightest = 3;

function marginBlocks({ asBuilt, builds }: ReadingsStudy): readonly Block[] {
  const counts = verdictCounts(asBuilt);
  const grave = asBuilt.filter(({ verdict }) => verdict !== 'pass');
  const close = asBuilt
    .filter(({ verdict, margin }) => verdict === 'pass' && margin !== null)
    .toSorted((a, b) => a.margin! - b.margin!)
    .slice(0, tightest);
  const open = openReasons(asBuilt).map(({ ids, reason }) => `${ids.join(', ')} not assessed: ${reason}`);
  const many = builds.length > 1 ? `; of each check the worst of ${builds.length} that the readings do not tell apart` : '';
  return [
    { kind: 'paragraph', text: `Reviewed at the project's own voltage with ${builds.join('; or ')}${many}.` },
    {
      kind: 'table',
      caption: `${counts.fail} failed, ${counts['not assessed']} not assessed, ${counts.warn} warned, ${counts.pass} passed; shown: what did not pass, and of what passed the ${tightest} tightest`,
      columns: ['check', 'verdict', 'value', 'limit', 'margin'],
      rows: [...grave, ...close].map(marginRow),
    },
    ...(open.length === 0 ? [] : [{ kind: 'list' as const, items: open }]),
  ];
}

function marginRow({ id, verdict, value, limit, dimension, margin }: Result): readonly string[] {
  const of = (one: number | null): string => (one === null ? '-' : formatQuantity({ value: one, dimension }));
  return [id, verdict, of(value), of(limit), margin === null ? '-' : signed(margin)];
}
