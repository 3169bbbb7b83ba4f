/** What the exit status says. Several files: the highest. */
export const exitStatus = {
  /** Ran, nothing failed. */
  passed: 0,
  /** Ran, and a check failed (or another verdict that --fail-on names). */
  failed: 1,
  /** Could not run: usage, file, schema, unknown part. */
  refused: 2,
  /** Our bug. */
  internal: 70,
} as const;
export type ExitStatus = (typeof exitStatus)[keyof typeof exitStatus];
