import type { Result } from '../checks/result.ts';
import { formatQuantity } from '../units/format-quantity.ts';

const valueWidth = 9;
/** Room beyond this is told without its number. */
const mostShown = 10;

/** What a check compares. */
type Compared = Pick<Result, 'verdict' | 'value' | 'limit' | 'dimension' | 'sense' | 'margin'>;

/** `58.9 V of 200 V   29 %`, aligned; nothing where there is no value. */
export function comparison(compared: Compared): string {
  const { value, against, room } = comparedWords(compared);
  const shown = value.padStart(value === '' ? 0 : valueWidth);
  return against === '' ? shown : `${shown} ${against.padEnd(valueWidth + 3)} ${room}`;
}

/** What is compared, in words: `58.9 V`, `of 200 V`, `+71 %`; each empty where there is none. */
export function comparedWords({ verdict, value, limit, dimension, sense, margin }: Compared): {
  readonly value: string;
  readonly against: string;
  readonly room: string;
} {
  const number = (si: number): string => formatQuantity({ value: si, dimension });
  if (value === null) return { value: '', against: '', room: '' };
  if (limit === null) return { value: number(value), against: '', room: '' };
  // past a limit that only warns, a share below zero would read as a fail
  const isTolerated = verdict === 'warn' && margin !== null && margin < 0;
  return {
    value: number(value),
    against: `${sense === 'at-most' ? 'of' : 'min'} ${number(limit)}`,
    room: isTolerated ? 'past, warns' : roomLeft({ value, limit, dimension, margin }),
  };
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
