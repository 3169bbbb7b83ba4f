/** A piece of a page that is printed as text, Markdown or HTML. */
export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  /** What must not be overlooked. */
  | { readonly kind: 'alert'; readonly text: string; readonly items: readonly string[] }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | Table;

export interface Table {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly string[];
  /** A row's first cell is its header. */
  readonly rows: readonly (readonly string[])[];
}

/** A page in the order in which it is read. */
export interface Page {
  readonly title: string;
  readonly blocks: readonly Block[];
}
