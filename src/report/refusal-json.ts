import type { Diagnostic } from '../source/diagnostic.ts';

/** A refusal as JSON data: the first problem, and all of them. */
export function refusalJson(problems: readonly Diagnostic[]): object {
  const [first] = problems;
  return { error: problemJson(first), errors: problems.map(problemJson) };
}

function problemJson(problem: Diagnostic | undefined): object {
  const { id = 'refused', message = 'refused', help, at } = problem ?? {};
  return {
    id,
    message,
    ...(help === undefined ? {} : { help }),
    at: at === undefined ? null : { path: at.path, line: at.line, column: at.column },
  };
}
