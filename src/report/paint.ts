import { Chalk, type ChalkInstance } from 'chalk';
import type { Verdict } from '../checks/judge.ts';

/** Colours a text by a verdict, which the text says itself; level 0 leaves it as it is. */
export function painter(colourLevel: 0 | 1 | 2 | 3): (verdict: Verdict, text: string) => string {
  const chalk: ChalkInstance = new Chalk({ level: colourLevel });
  const colours: Record<Verdict, (text: string) => string> = {
    pass: chalk.green,
    warn: chalk.yellow,
    fail: chalk.red,
    'not assessed': chalk.bold,
  };
  return (verdict, text) => colours[verdict](text);
}
