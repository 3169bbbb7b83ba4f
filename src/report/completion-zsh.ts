import type { Completed, CompletedCommand, CompletedFlag } from './completion.ts';

/** A script for zsh with its completion system switched on. */
export function zshCompletion({ version, commands }: Completed): string {
  return `#compdef tankproof
# tankproof ${version} for zsh: eval "$(tankproof completion zsh)", after compinit
_tankproof() {
  local -a commands
  commands=(
${commands.map(({ name, summary }) => `    '${name}:${quoted(summary)}'`).join('\n')}
  )
  if ((CURRENT == 2)); then
    _describe command commands
    return
  fi
  shift words
  ((CURRENT--))
  case $words[1] in
${commands.map(commandCase).join('\n')}
  esac
}
if [ "$funcstack[1]" = _tankproof ]; then _tankproof "$@"; else compdef _tankproof tankproof; fi
`;
}

function commandCase({ name, flags, args }: CompletedCommand): string {
  const places = args.map((words, i) => {
    const which = i === args.length - 1 ? '*' : `${i + 1}`;
    return `'${which}: :${words === undefined ? '_files' : listed(words)}'`;
  });
  return [
    `    ${name})`,
    '      _arguments -S \\',
    `        ${[...flags.flatMap(flagSpecs), ...places].join(' \\\n        ')}`,
    '      ;;',
  ].join('\n');
}

function flagSpecs({ name, short, description, isRepeatable, value }: CompletedFlag): readonly string[] {
  const takes = value === 'nothing' ? '' : `: :${value === 'file' ? '_files' : value === 'other' ? ' ' : listed(value)}`;
  const text = `[${quoted(description).replaceAll(/[[\]]/g, (sign) => `\\${sign}`)}]${takes}`;
  const names = [
    `--${name}${value === 'nothing' ? '' : '='}`,
    ...(short === undefined ? [] : [`-${short}${value === 'nothing' ? '' : '+'}`]),
  ];
  const others = short === undefined || isRepeatable ? '' : `(--${name} -${short})`;
  return names.map((one) => `'${isRepeatable ? '*' : others}${one}${text}'`);
}

function listed(words: readonly string[]): string {
  return `(${words.map(quoted).join(' ')})`;
}

/** Text within single quotes in which a colon does not end it. */
function quoted(text: string): string {
  return text.replaceAll('\\', '\\\\').replaceAll("'", "'\\''").replaceAll(':', '\\:');
}
