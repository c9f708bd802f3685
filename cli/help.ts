import { wrap } from '../lib/index.js';
import type { CommandSpec, OptionSpec } from './command.js';

/** The list of commands. */
export function overview(commands: Readonly<Record<string, CommandSpec>>, width: number): string {
  return lines(
    [
      'lieflat reads machine-embroidery stitch files and says whether a design will lie flat.',
      '',
      'Use: lieflat <command> …',
      '',
      ...pairs(
        Object.entries(commands).map(([name, spec]) => [name, spec.summary]),
        width,
      ),
      '',
      'lieflat <command> --help explains one of them, with an example.',
      'lieflat --version prints the version.',
      '',
      'Exit codes: 0 all well, 1 something was found at or above --fail-on, 2 the work could not be done.',
    ],
    width,
  );
}

/** The help of one command. */
export function commandHelp(
  name: string,
  spec: CommandSpec,
  options: Readonly<Record<string, OptionSpec>>,
  width: number,
): string {
  return lines(
    [
      `lieflat ${name} ${spec.usage}`,
      '',
      spec.summary,
      '',
      'Options:',
      ...pairs(
        Object.entries(options).map(([option, { value, short, choices, help }]) => [
          `${short ? `-${short}, ` : ''}--${option}${value ? ` ${value}` : ''}`,
          choices ? `${help}: ${choices[0]} (if not said), ${choices.slice(1).join(', ')}` : help,
        ]),
        width,
      ),
      '',
      'Example:',
      `  ${spec.example}`,
    ],
    width,
  );
}

function pairs(rows: readonly (readonly [left: string, right: string])[], width: number): string[] {
  const column = Math.max(...rows.map(([left]) => left.length)) + 4;
  return rows.flatMap(([left, right]) => wrap(right, width, `  ${left}`.padEnd(column), ' '.repeat(column)));
}

function lines(all: readonly string[], width: number): string {
  return `${all.flatMap((line) => (line.length > width ? wrap(line, width) : [line])).join('\n')}\n`;
}
