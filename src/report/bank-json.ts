import type { BankState } from '../checks/bank-state.ts';
import type { BankOption, BankRequest, BankStudy, PartAnswer } from '../studies/bank.ts';
import type { DrawerAnswer, DrawerBank } from '../studies/drawer.ts';
import { unitOf } from '../units/dimensions-table.ts';
import { bankLine, riseOf } from './bank-words.ts';

/** What stands in every document of `bank`. */
export interface BankDocument {
  readonly file: string;
  readonly title: string;
  readonly request: BankRequest;
  /** Nominal capacitance that is wanted. */
  readonly wanted: number;
  /** Of the tool. */
  readonly version: string;
}

/** `bank FILE` as a JSON document; see shared/bank.schema.json. */
export function bankJson({
  file,
  title,
  study,
  sort,
  version,
}: {
  file: string;
  title: string;
  study: BankStudy;
  sort: 'count' | 'volume';
  version: string;
}): object {
  return {
    ...head({ file, title, request: study.request, wanted: study.wanted, version }),
    sort,
    now: optionJson(study.now),
    parts: study.answers.map(answerJson),
  };
}

/** `bank FILE --parallel RANGE` as a JSON document. */
export function bankCurveJson({ curve, ...document }: BankDocument & { curve: readonly BankOption[] }): object {
  return { ...head(document), curve: curve.map(optionJson) };
}

/** `bank FILE --have …` as a JSON document. */
export function drawerJson({ answers, ...document }: BankDocument & { answers: readonly DrawerAnswer[] }): object {
  return {
    ...head(document),
    drawer: answers.map(({ parts, kind, bank, nearest, why }) => ({
      parts,
      result: kind,
      ...(bank === undefined ? {} : { bank: drawerBankJson(bank) }),
      ...(nearest === undefined ? {} : { nearest: drawerBankJson(nearest) }),
      ...(why === undefined ? {} : { why }),
    })),
  };
}

function head({ file, title, request: { keep, within, depth, mostCount }, wanted, version }: BankDocument): object {
  return { tankproof: { version, bankVersion: 1 }, file, title, keep, within, wantedCapacitance: wanted, depth, most: mostCount };
}

function answerJson(answer: PartAnswer): object {
  const { part, kind } = answer;
  if (kind !== 'none') return { part, result: kind, bank: optionJson(answer.option), setBy: answer.setBy };
  const { why, nearest, beyond } = answer;
  return {
    part,
    result: kind,
    why,
    ...(nearest === undefined ? {} : { nearest: optionJson(nearest) }),
    ...(beyond === undefined ? {} : { beyond: optionJson(beyond) }),
  };
}

function optionJson({ bank, state, ...numbers }: BankOption): object {
  const { capacitor, series, parallel, cooling } = bank;
  const { count, capacitance, frequency, loss, current, volume } = numbers;
  return {
    part: capacitor.name,
    series,
    parallel,
    cooling,
    write: bankLine(bank),
    verdict: state.verdict,
    count,
    capacitance,
    frequency,
    loss,
    current,
    rise: riseOf(state),
    volume,
    checks: checksJson(state),
  };
}

function checksJson({ stresses }: BankState): readonly object[] {
  return stresses.map(({ id, verdict, value, limit, dimension, reason }) => ({
    id,
    verdict,
    value,
    limit,
    unit: unitOf(dimension),
    ...(reason === undefined ? {} : { reason }),
  }));
}

function drawerBankJson({ mix: { members, series, cooling }, state, count, capacitance }: DrawerBank): object {
  return {
    series,
    cooling,
    verdict: state.whole.verdict,
    count,
    capacitance,
    members: members.map(({ capacitor, strings }, i) => ({
      part: capacitor.name,
      strings,
      checks: state.members[i] === undefined ? [] : checksJson(state.members[i]),
    })),
  };
}
