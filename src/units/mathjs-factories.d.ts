/** Factories that mathjs exports at run time and leaves out of its types, as far as they are used here. */
declare module 'mathjs' {
  export interface PlainUnit {
    readonly dimensions: readonly number[];
    equalBase(other: PlainUnit): boolean;
    multiply(other: PlainUnit | number): PlainUnit | number;
    divide(other: PlainUnit | number): PlainUnit | number;
    pow(exponent: number): PlainUnit | number;
    toNumber(unit: string): number;
    /** Value in SI; null for a unit without a value. */
    readonly value: number | null;
  }
  export interface PlainUnitClass {
    new (value: number, unit: string): PlainUnit;
    isValuelessUnit(name: string): boolean;
  }
  export function createUnitClass(dependencies: Readonly<Record<string, unknown>>): PlainUnitClass;
  export function createParse(dependencies: Readonly<Record<string, unknown>>): (text: string) => unknown;
}
export {};
