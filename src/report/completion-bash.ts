import type { Completed, CompletedCommand } from './completion.ts';

/** A script for bash 3.2 or newer; an empty answer leaves names of files to the shell. */
export function bashCompletion({ version, commands }: Completed): string {
  return `# tankproof ${version} for bash: eval "$(tankproof completion bash)"
_tankproof() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} flags= words= i place=0 valued='${valuedFlags(commands).join(' ')}'
  COMPREPLY=()
  # bash splits --flag=value in three
  if [ "$word" = = ]; then word=
  elif [ "$before" = = ]; then before=\${COMP_WORDS[COMP_CWORD-2]}
  fi
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W '${commands.map(({ name }) => name).join(' ')} --help --version' -- "$word"))
    return
  fi
  for ((i = 2; i < COMP_CWORD; i++)); do
    case \${COMP_WORDS[i]} in -*|=) continue ;; esac
    case " $valued = " in *" \${COMP_WORDS[i-1]} "*) ;; *) place=$((place + 1)) ;; esac
  done
  case \${COMP_WORDS[1]} in
${commands.map(commandCase).join('\n')}
  esac
  case $word in -*) words=$flags ;; esac
  COMPREPLY=($(compgen -W "$words" -- "$word"))
}
complete -o default -F _tankproof tankproof
`;
}

function commandCase({ name, flags, args }: CompletedCommand): string {
  const names = flags.flatMap((flag) => [`--${flag.name}`, ...(flag.short === undefined ? [] : [`-${flag.short}`])]);
  const places = args.map((words, i) => `${i === args.length - 1 ? '*' : i}) words='${(words ?? []).join(' ')}' ;;`).join(' ');
  const values = flags.flatMap(({ name: flag, short, value }) => {
    if (value === 'nothing') return [];
    const cases = [`--${flag}`, ...(short === undefined ? [] : [`-${short}`])].join('|');
    const words = typeof value === 'string' ? '' : `COMPREPLY=($(compgen -W '${value.join(' ')}' -- "$word")); `;
    // before bash 4 names of files are offered there, too
    return [`        ${cases}) ${value === 'other' ? 'compopt +o default 2>/dev/null; ' : words}return ;;`];
  });
  return [
    `    ${name})`,
    `      flags='${names.join(' ')}'`,
    ...(args.length === 0 ? [] : [`      case $place in ${places} esac`]),
    ...(values.length === 0 ? [] : ['      case $before in', ...values, '      esac']),
    '      ;;',
  ].join('\n');
}

/** Flags that take a value, in whatever command. */
function valuedFlags(commands: readonly CompletedCommand[]): readonly string[] {
  const names = commands.flatMap(({ flags }) =>
    flags.flatMap(({ name, short, value }) => (value === 'nothing' ? [] : [`--${name}`, ...(short === undefined ? [] : [`-${short}`])])),
  );
  return [...new Set(names)];
}
