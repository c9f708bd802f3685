/** A command's words and options, checked against its table. */
export class Arguments {
  constructor(
    readonly words: readonly string[],
    private readonly values: ReadonlyMap<string, string>,
  ) {}

  /** True where the flag was given. */
  flag(name: string): boolean {
    return this.values.has(name);
  }

  /** The option's value, or undefined where it was not given. */
  value(name: string): string | undefined {
    return this.values.get(name);
  }

  /** The value of an option whose table entry lists its choices, the first of which is the default. */
  choice<T extends string>(name: string, choices: readonly T[]): T {
    return (this.values.get(name) as T | undefined) ?? choices[0];
  }
}
