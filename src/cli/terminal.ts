/** What a stream can show. */
export interface StreamLook {
  readonly width: number;
  readonly colourLevel: 0 | 1;
}

/** Widest line that is comfortable to read. */
const widest = 120;

/**
 * Width and colour of a stream. Precedence for colour: --color, NO_COLOR, FORCE_COLOR, TERM=dumb, whether it is a terminal.
 *
 * @param stream  standard output or standard error
 * @param colour  auto | always | never
 */
export function streamLook({ stream, colour }: { stream: NodeJS.WriteStream; colour: string }): StreamLook {
  const { NO_COLOR, FORCE_COLOR, TERM } = process.env;
  const wanted =
    colour === 'always' ||
    (colour === 'auto' && !NO_COLOR && (FORCE_COLOR ? FORCE_COLOR !== '0' && FORCE_COLOR !== 'false' : TERM !== 'dumb' && stream.isTTY));
  return { width: Math.max(40, Math.min(stream.columns || 80, widest)), colourLevel: wanted ? 1 : 0 };
}
