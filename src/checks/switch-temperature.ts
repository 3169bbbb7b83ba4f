import { formatQuantity } from '../units/format-quantity.ts';
import { totalLoss, type SwitchLosses } from '../driver/switch-heat.ts';
import { defineCheck, type Finding } from './check.ts';
import { enhancementDoubt } from './enhancement.ts';
import { lacking, measured, noMoreThan, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'switches.heatsink';

/** Gate rise over the period up to which the loss is a bound. */
const boundedShare = 0.12;

export default defineCheck({
  id: 'switch-temperature',
  part: 'switches',
  title: 'junction temperature while running, against the part’s limit',
  since: '0.1.0',
  dimension: 'temperature',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Finds the junction temperature that agrees with the loss it causes: conduction, gate drive, slow gate and the leak of a switch that is not held off.',
    why: 'On-resistance rises and the threshold falls with temperature; where the loss outgrows the cooling there is no steady state at all.',
    formula:
      'Tj = Ta + R_th·P(Tj), P = ½·[(I + Ig)² + ΔI²/12]·Ron(Tj) + ½·Qg·V·f + 1.2·f·I·[(Vp − Vf)·t1/2 + Vt·(1 − cos ω·t_g)/ω] + 1.16·V·i_leak; Ron(Tj) = Ron25·(Tj/298.15 K)^n',
    source:
      'power law of silicon mobility, Jacoboni et al. 1977 (check-values E-rds, E-selfconsistent, E-runaway); thermal chain E-stack; slow-gate loss and margins from a time-domain model, up to a gate rise of 12 % of the period',
    remedy: 'a better heatsink, a switch of lower on-resistance, faster gates, or less load',
    rated: 'the rated junction temperature',
  },
  subject: subjects.switch,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { mosfet } = design.switches;
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const rating = mosfet.ratings.junctionTemperature;
    if (rating === undefined) return [lacking({ part: mosfet.name, key: 'junctionTemperature', path: 'switches.part' })];
    const { junction, losses, gateRise, frequency } = running;
    if ('unknown' in junction) return [unassessed({ unknown: junction.unknown, path })];
    if (!junction.found) return [hopeless(junction.why, junction.temperature)];
    const slow = typeof gateRise !== 'number' || gateRise * frequency > boundedShare;
    const doubt = slow
      ? 'the gate rises for more than 12 % of the period, where the loss of slow gates is not bounded by the closed form'
      : enhancementDoubt({ design, point });
    return [
      measured({
        value: junction.temperature,
        doubt,
        rating: rating.value,
        path,
        basis: () => [
          typeof losses === 'object' && !('unknown' in losses) ? lossWords(losses) : 'losses agree with the temperature',
          ratedBasis({ what: 'junction limit', rating, dimension: 'temperature' }),
        ],
        remedy: ({ warnAt }) => heatsinkWords({ design, warnAt, loss: junction.loss }),
      }),
    ];
  },
});

function hopeless(why: 'runaway' | 'no state', temperature: number): Finding {
  const reason =
    why === 'runaway'
      ? `thermal runaway: up to ${formatQuantity({ value: temperature, dimension: 'temperature' })} the loss outgrows the cooling, no junction temperature is steady`
      : `warming up, the pair loses its hold-off at a junction of ${formatQuantity({ value: temperature, dimension: 'temperature' })} and latches`;
  return { kind: 'hopeless', reason, path, remedy: () => 'a better heatsink, a switch of lower on-resistance, or less load' };
}

function lossWords(losses: SwitchLosses): string {
  const watt = (value: number): string => formatQuantity({ value, dimension: 'power', digits: 2 });
  const { conduction, gateDrive, slowGate, leak } = losses;
  return (
    `loss ${watt(totalLoss(losses))} a switch: conduction ${watt(conduction)}, slow gate ${watt(slowGate)}, ` +
    `gate drive ${watt(gateDrive)}, leak ${watt(leak)}`
  );
}

function heatsinkWords({
  design,
  warnAt,
  loss,
}: {
  design: Parameters<typeof subjects.switch>[0]['design'];
  warnAt: number;
  loss: number;
}): string {
  const ambient = design.environment.ambient ?? 298.15;
  const { junctionToCase, caseToSink } = design.switches.mosfet.ratings;
  const inner = ((junctionToCase?.value ?? 0) + (caseToSink?.value ?? 0) + (design.switches.insulator ?? 0)) / design.switches.parallel;
  const left = (warnAt - ambient) / loss - inner;
  const otherwise = 'a switch of lower on-resistance, faster gates, or less load';
  return left > 0.05
    ? `a heatsink of ${noMoreThan({ value: left, dimension: 'thermalResistance', digits: 2 })} or less for each switch, or ${otherwise}`
    : otherwise;
}
