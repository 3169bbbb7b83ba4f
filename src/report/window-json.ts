import type { AxisWindow, WindowStudy } from '../studies/window.ts';

/** `window FILE` as a JSON document; see shared/window.schema.json. */
export function windowJson({
  file,
  title,
  study: { depth, supply, load },
  version,
}: {
  file: string;
  title: string;
  study: WindowStudy;
  version: string;
}): object {
  return {
    tankproof: { version, windowVersion: 1 },
    file,
    title,
    depth,
    supply: axisJson(supply, 'V'),
    load: load === undefined ? null : { name: load.name, ...axisJson(load, 'W') },
  };
}

function axisJson(
  { present, failingNow, from, to, coarse, ranges, chosen, starting, surest, openAtEnds, lower, upper, always, rest, crossing }: AxisWindow,
  unit: string,
): object {
  return {
    unit,
    present,
    failingNow,
    from,
    to,
    lookedAt: coarse,
    ranges,
    window: chosen ?? null,
    startingRanges: starting ?? null,
    startingWindow: surest ?? null,
    notAssessedAtEnds: openAtEnds ?? null,
    lower,
    upper,
    always,
    withoutThose: rest,
    crossing: crossing ?? null,
  };
}
