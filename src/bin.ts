#!/usr/bin/env node
import { flush } from '@oclif/core/flush';
import { run } from '@oclif/core/run';
import { settings } from '@oclif/core/settings';

settings.enableAutoTranspile = false;
try {
  await run(process.argv.slice(2), import.meta.url);
  await flush();
} catch (error) {
  const { failedOutsideCommand } = await import('./cli/base-command.ts');
  failedOutsideCommand({ error, json: process.argv.includes('--json') });
}
