import type { Validator } from '../source/structure.ts';

export const validate: Validator;
