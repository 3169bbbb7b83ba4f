/** A place in a text: line and column count from 1, offset and length in UTF-16 code units from 0. */
export interface Location {
  readonly path: string;
  readonly line: number;
  readonly column: number;
  readonly offset: number;
  readonly length: number;
}
