import { isKnown, type Maybe } from '../driver/known.ts';
import type { BringupCard } from '../studies/bringup/card.ts';
import type { VoltageStep } from '../studies/bringup/steps.ts';
import type { PredictedReadings } from '../studies/predicted-readings.ts';
import { unitOf } from '../units/dimensions-table.ts';

/** A card as JSON data; its schema is shared/bringup.schema.json. SI units. */
export function bringupJson({ file, title, card, version }: { file: string; title: string; card: BringupCard; version: string }): object {
  const { blockers, warnings, cautions, loads, meter, gates, supply, lamp, steps, fuse, probe } = card;
  const { clamp, pullUp, ...gateRest } = gates;
  return {
    tankproof: { version, bringupVersion: 1 },
    file,
    title,
    mayPowerUp: blockers.length === 0,
    blockers: blockers.map(({ id, verdict, value, limit, dimension, reason }) => ({
      id,
      verdict,
      value,
      limit,
      unit: unitOf(dimension),
      reason: reason ?? null,
    })),
    warnings: warnings.map(({ id }) => id),
    cautions,
    loads: { idle: loads.idle.name, loaded: loads.loaded?.name ?? null },
    meter: meter.map(({ between, range, expect, note }) => ({
      between,
      range,
      ...(expect === 'open' ? { open: true } : { open: false, low: expect.low, high: expect.high, unit: unitOf(expect.dimension) }),
      note,
    })),
    gates: {
      ...gateRest,
      freed: { ...gates.freed, high: number(gates.freed.high) },
      tied: { low: number(gates.tied.low), high: number(gates.tied.high) },
      beside: number(gates.beside),
      pullUp: { power: pullUp.power, rated: pullUp.rated ?? null },
      clamp: clamp === undefined ? null : { power: number(clamp.power), rated: clamp.rated ?? null },
    },
    supply: { ...supply, startPeak: supply.startPeak ?? null, own: supply.own ?? null },
    lamp,
    fuse: fuse ?? null,
    steps: steps.map(jsonStep),
    probe,
  };
}

function number(value: Maybe | undefined): number | null {
  return value !== undefined && isKnown(value) ? value : null;
}

function jsonStep({ share, voltage, leftOut, idle, loaded, startPeak, insertionPeak, removalPeak, abort, past }: VoltageStep): object {
  const readings = (of: PredictedReadings): object => Object.fromEntries(Object.entries(of).map(([key, value]) => [key, number(value)]));
  return {
    share,
    voltage,
    leftOut: leftOut ?? null,
    idle: readings(idle),
    loaded: loaded === undefined ? null : readings(loaded),
    startPeak: number(startPeak),
    insertionPeak: number(insertionPeak),
    removalPeak: number(removalPeak),
    abort: Object.fromEntries(Object.entries(abort).map(([key, value]) => [key, Number.isFinite(value) ? value : null])),
    past,
  };
}
