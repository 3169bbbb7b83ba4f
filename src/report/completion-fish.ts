import type { Completed, CompletedCommand } from './completion.ts';

/** A script for fish. */
export function fishCompletion({ version, commands }: Completed): string {
  return [
    `# tankproof ${version} for fish: tankproof completion fish | source`,
    'complete -c tankproof -n __fish_use_subcommand -f',
    ...commands.map(({ name, summary }) => `complete -c tankproof -n __fish_use_subcommand -a ${name} -d '${quoted(summary)}'`),
    ...commands.flatMap(commandLines),
    '',
  ].join('\n');
}

function commandLines({ name, flags, args }: CompletedCommand): readonly string[] {
  const start = `complete -c tankproof -n '__fish_seen_subcommand_from ${name}'`;
  const words = [...new Set(args.flatMap((one) => one ?? []))];
  const flagLines = flags.map(({ name: flag, short, description, value }) => {
    const takes =
      value === 'nothing' ? '' : value === 'file' ? ' -r -F' : value === 'other' ? ' -x' : ` -x -a '${quoted(value.join(' '))}'`;
    return `${start} -l ${flag}${short === undefined ? '' : ` -s ${short}`} -d '${quoted(description)}'${takes}`;
  });
  const takesFiles = args.includes(undefined);
  return [
    ...(takesFiles ? [] : [`${start} -f`]),
    ...(words.length === 0 ? [] : [`${start} -a '${quoted(words.join(' '))}'`]),
    ...flagLines,
  ];
}

function quoted(text: string): string {
  return text.replaceAll('\\', '\\\\').replaceAll("'", "\\'");
}
