/** What is wrong with a value of a profile, for whoever wrote it. */

type Issue = import('zod').core.$ZodIssue;

const KINDS: Readonly<Record<string, string>> = {
  number: 'no number',
  int: 'no whole number',
  string: 'no text',
  boolean: 'neither true nor false',
  object: 'no group of settings in { }',
  record: 'no group of settings in { }',
};

/**
 * An issue in plain words, to follow the key: "it is no number". Where the rule has words of its own, as a pattern does, they are taken.
 *
 * @param value what stands there; undefined where nothing does
 */
export function issueWords(issue: Issue, value: unknown): string {
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
