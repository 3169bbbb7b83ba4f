import { describe, expect, test } from 'vitest';
import { decodeText, mostBytes } from '../../src/source/decode-text.ts';

const decoded = (bytes: Uint8Array): ReturnType<typeof decodeText> => decodeText({ bytes, path: 'a.yaml' });
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const idOf = (bytes: Uint8Array): string | undefined => {
  const outcome = decoded(bytes);
  return outcome.ok ? undefined : outcome.problems[0]?.id;
};

describe('bytes of a file', () => {
  test('UTF-8 text comes out as it is', () => {
    expect(decoded(bytesOf('a: 1.8 µH\r\n'))).toEqual({ ok: true, value: 'a: 1.8 µH\r\n' });
  });

  test('a byte order mark is removed', () => {
    expect(decoded(Uint8Array.of(0xef, 0xbb, 0xbf, 0x61))).toEqual({ ok: true, value: 'a' });
  });

  test('a file of the largest size is read, one byte more is refused', () => {
    expect(idOf(new Uint8Array(mostBytes).fill(0x61))).toBeUndefined();
    expect(idOf(new Uint8Array(mostBytes + 1).fill(0x61))).toBe('file-too-large');
  });

  test.each([
    ['UTF-16', Uint8Array.of(0xff, 0xfe, 0x61, 0x00)],
    ['a cut multi-byte character', Uint8Array.of(0x61, 0xc2)],
    ['an overlong slash', Uint8Array.of(0xc0, 0xaf)],
    ['NUL', Uint8Array.of(0x61, 0)],
    ['escape', Uint8Array.of(0x1b, 0x5b)],
    ['form feed', Uint8Array.of(0x61, 0x0c)],
    ['delete', Uint8Array.of(0x7f)],
  ])('%s is not text', (_name, bytes) => expect(idOf(bytes)).toBe('not-text'));

  test('a control character is reported where it stands', () => {
    const outcome = decoded(bytesOf('a: 1\nb: \u0000'));
    expect(outcome).toMatchObject({ ok: false, problems: [{ at: { path: 'a.yaml', line: 2, column: 4, offset: 8, length: 1 } }] });
  });

  test.each(['', ' \n\t\r\n', '# only a comment\n  # and one more'])('%j is an empty file', (text) =>
    expect(idOf(bytesOf(text))).toBe('empty-file'),
  );
});
