/** A function without arguments that is computed where it is first asked, and only then. */
export function onceAsked<V>(answer: () => V): () => V {
  let found: { readonly answer: V } | undefined;
  return () => (found ??= { answer: answer() }).answer;
}

/**
 * A function of an object that remembers its last answer: for what is asked many times in a row of the same object.
 *
 * @param answer  its result hangs on the object alone
 */
export function rememberingLast<K extends object, V>(answer: (of: K) => V): (of: K) => V {
  let last: { readonly of: K; readonly answer: V } | undefined;
  return (of) => {
    if (last?.of !== of) last = { of, answer: answer(of) };
    return last.answer;
  };
}
