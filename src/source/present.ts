type Present<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/**
 * The same object without the properties that are undefined, so that what is absent in a file is absent in the model.
 *
 * @param properties  some of them possibly undefined
 * @returns a new object
 *
 * @example present({ voltage: 18, tolerance: undefined }) // { voltage: 18 }
 */
export function present<T extends object>(properties: T): Present<T> {
  return Object.fromEntries(Object.entries(properties).filter(([, value]) => value !== undefined)) as Present<T>;
}
