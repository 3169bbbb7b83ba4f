import type { Validator } from '../source/structure.ts';

export const project: Validator;
export const limits: Validator;
export const mosfets: Validator;
export const diodes: Validator;
export const zeners: Validator;
export const capacitors: Validator;
export const chokes: Validator;
