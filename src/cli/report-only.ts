import { boolean } from '@oclif/core/flags';

/** Of every command that can end with 1. */
export const reportOnly = { 'report-only': boolean({ description: 'Exit with 0 where it would be 1.', helpGroup: 'EXIT STATUS' }) };
