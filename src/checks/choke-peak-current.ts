import { defineCheck } from './check.ts';
import { momentFindings } from './peak-moments.ts';
import { lacking, measured, noLessThan, ratedBasis, subjects } from './words.ts';

const path = 'chokes';

export default defineCheck({
  id: 'choke-peak-current',
  part: 'chokes',
  title: 'peak current of one choke, against saturation',
  since: '0.1.0',
  dimension: 'current',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the peak current of one choke, running, at switch-on and at load removal, with its saturation current.',
    why: 'A saturated choke no longer limits anything: the supply current runs away and lifts the hold-off voltage of the gates.',
    formula: 'I/2 + ΔI/2 for two chokes, I + ΔI/2 for one into the centre tap; ΔI = 0.551·V/(f·Lc) or 0.105·V/(f·Lc)',
    source:
      'derived by integrating the half-sine (check-values A-ripple); at switch-on and load removal the envelope, 8 to 35 % added for what a time-domain model went past it',
    remedy: 'a choke of higher saturation current',
    rated: 'the saturation current',
  },
  subject: subjects.choke,
  run: (input) => {
    const { choke, arrangement } = input.analysis.design.chokes;
    const rating = choke.ratings.saturationCurrent;
    if (rating === undefined) return [lacking({ part: choke.name, key: 'saturationCurrent', path })];
    return momentFindings({
      input,
      moments: ['running', 'switch-on', 'load removal'],
      finding: ({ chokePeak, moment, basis }) =>
        measured({
          value: chokePeak,
          rating: rating.value,
          path,
          basis: () => [
            moment === undefined
              ? arrangement === 'two'
                ? 'half the supply current and half its own ripple'
                : 'the supply current and half its ripple'
              : basis(),
            ratedBasis({ what: 'saturation', rating, dimension: 'current' }),
          ],
          remedy: ({ warnAt }) =>
            `a choke that saturates at ${noLessThan({ value: (chokePeak * rating.value) / warnAt, dimension: 'current' })} or more`,
          moment,
        }),
    });
  },
});
