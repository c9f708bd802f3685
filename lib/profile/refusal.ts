/** What is wrong with a file of settings, in one line for whoever wrote it. */
import { LieflatError } from '../core/errors.js';
import { nearestName } from '../core/nearest-name.js';

type Issue = import('zod').core.$ZodIssue;

/** A parsed file of settings; `placeOf` gives `FILE: line N` of a place in it. */
export interface SettingsSource {
  readonly value: unknown;
  placeOf(at: readonly PropertyKey[]): string;
}

export interface RefusalWords {
  /** The whole, where nothing in it is to be named. */
  readonly whole: string;
  /** What to do where nothing better is known. */
  readonly todo: string;
  /** In which unit a figure at a place is given; nothing where that is not known. */
  unitAt?(at: readonly string[]): string | undefined;
  /** Keys that are allowed at a place; none where any is. */
  keysAt?(at: readonly string[]): readonly string[];
}

/** The error for what is wrong first; an unknown key says more than a wrong value does. */
export async function refusalOf(
  issues: readonly Issue[],
  source: SettingsSource,
  { whole, todo, keysAt = () => [], unitAt }: RefusalWords,
): Promise<LieflatError> {
  const issue = issues.find((i) => i.code === 'unrecognized_keys') ?? deepest(issues[0]);
  const at = issue.path.map(String);
  if (issue.code === 'unrecognized_keys') {
    const [key] = issue.keys;
    const keys = keysAt(at);
    const near = await nearestName(key, keys);
    return new LieflatError({
      code: 'bad-profile',
      place: source.placeOf([...at, key]),
      what: `unknown key ${[...at, key].join('.')}`,
      todo: near ? `did you mean ${near}?` : keys.length > 0 ? `the keys here are ${keys.join(', ')}` : todo,
    });
  }
  return new LieflatError({
    code: 'bad-profile',
    place: source.placeOf(issue.path),
    what: `${at.join('.') || whole} is wrong: ${issueWords(issue, valueAt(source.value, issue.path))}`,
    todo:
      (issue.code === 'custom' && (issue.params?.todo as string | undefined)) ||
      figureTodo(unitAt?.(at)) ||
      todo,
  });
}

const figureTodo = (unit: string | undefined): string | null =>
  unit ? `give a number in ${unit}, or leave it out` : null;

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | null)?.[key], json);
}

/** Of the ways a value could have been right, the one that got furthest. */
function deepest(issue: Issue): Issue {
  if (issue.code !== 'invalid_union') return issue;
  const within = issue.errors.flat();
  const furthest =
    within.find((inner) => inner.code === 'unrecognized_keys' || inner.path.length > 0) ??
    within.find((inner) => inner.code !== 'invalid_type');
  return furthest ? { ...furthest, path: [...issue.path, ...furthest.path] } : issue;
}

const KINDS: Readonly<Record<string, string>> = {
  number: 'no number',
  int: 'no whole number',
  string: 'no text',
  boolean: 'neither true nor false',
  object: 'no group of settings in { }',
  record: 'no group of settings in { }',
};

/** An issue in plain words, to follow the key: "it is no number". Where the rule has words of its own, as a pattern does, they are taken. */
function issueWords(issue: Issue, value: unknown): string {
  if (value === undefined) return 'it is missing';
  switch (issue.code) {
    case 'invalid_type':
      return `it is ${KINDS[issue.expected] ?? 'of the wrong kind'}`;
    case 'too_small':
      if (issue.origin === 'string') return 'it is empty';
      return `it must be ${issue.inclusive ? 'at least' : 'above'} ${issue.minimum}`;
    case 'too_big':
      return `it must be ${issue.inclusive ? 'at most' : 'below'} ${issue.maximum}`;
    case 'not_multiple_of':
      return `it goes in steps of ${issue.divisor}`;
    case 'invalid_value':
      return `it must be one of ${issue.values.join(', ')}`;
    case 'invalid_key':
      return issue.issues[0].message;
    case 'invalid_union':
      return 'it is neither a number nor a group of settings in { }';
    default:
      return issue.message;
  }
}
