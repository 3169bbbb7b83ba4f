import type { Result } from '../checks/result.ts';
import { formatQuantity } from '../units/format-quantity.ts';

const valueWidth = 9;
/** Room beyond this is told without its number. */
const mostShown = 10;

/** What a check compares. */
type Compared = Pick<Result, 'verdict' | 'value' | 'limit' | 'dimension' | 'sense' | 'margin'>;

/** `58.9 V of 200 V   29 %`, aligned; nothing where there is no value. */
export function comparison({ verdict, value, limit, dimension, sense, margin }: Compared): string {
  if (value === null) return '';
  const number = (si: number): string => formatQuantity({ value: si, dimension });
  const shown = number(value).padStart(valueWidth);
  if (limit === null) return shown;
  const against = `${sense === 'at-most' ? 'of' : 'min'} ${number(limit)}`.padEnd(valueWidth + 3);
  // past a limit that only warns, a share below zero would read as a fail
  const isTolerated = verdict === 'warn' && margin !== null && margin < 0;
  return `${shown} ${against} ${isTolerated ? 'past, warns' : roomLeft({ value, limit, dimension, margin })}`;
}

/** Room that is left, `+25 %`, or by how much a limit is past; kelvins of a temperature. */
export function roomLeft({ value, limit, dimension, margin }: Pick<Result, 'value' | 'limit' | 'dimension' | 'margin'>): string {
  if (value === null || limit === null) return '';
  if (dimension !== 'temperature') return percent(margin);
  return `${formatQuantity({ value: Math.abs(limit - value), dimension: 'temperatureRise', digits: 2 })} ${value > limit ? 'past' : 'left'}`;
}

/** Margin with a sign: +25 % is room, −7 % is past the limit. */
function percent(margin: number | null): string {
  if (margin === null) return '';
  if (margin > mostShown) return `over +${mostShown * 100} %`;
  const text = formatQuantity({ value: Math.abs(margin), dimension: 'ratio', digits: 2 });
  return `${margin < 0 ? '−' : '+'}${text}`;
}
