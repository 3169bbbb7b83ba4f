const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/**
 * Whether a text is a day of the calendar as ISO 8601 writes it; two such days compare as their texts do.
 *
 * @example isDay('2028-02-29') // true
 * @example isDay('2027-02-29') // false
 */
export function isDay(text: string): boolean {
  const [, year, month, day] = (/^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined) return false;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const most = month === 2 && isLeap ? 29 : (monthDays[month - 1] ?? 0);
  return day >= 1 && day <= most;
}
