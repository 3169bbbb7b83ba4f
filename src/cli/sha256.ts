import { createHash } from 'node:crypto';

/** The SHA-256 of a text in UTF-8. */
export function sha256(text: string, encoding: 'hex' | 'base64'): string {
  return createHash('sha256').update(text, 'utf8').digest(encoding);
}
