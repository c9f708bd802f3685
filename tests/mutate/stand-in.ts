/**
 * Stands in for the runner of the tests where a test file is bundled with one source changed: the same assertions, and the tests one after
 * another until one fails. It knows no hooks and no options; a file that needs them is no test of a small module.
 */
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  chai,
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect';

type Body = () => unknown;
type Row = readonly unknown[];

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);

const world = globalThis as unknown as Record<symbol, object>;
export const expect = Object.assign(
  (value: unknown, message?: string) => chai.expect(value, message),
  chai.expect,
  world[ASYMMETRIC_MATCHERS_OBJECT],
);
world[GLOBAL_EXPECT] = expect;
setState({ assertionCalls: 0, expectedAssertionsNumber: null }, expect as never);

const waiting: { name: string; body: Body }[] = [];

export const it = Object.assign((name: string, body: Body) => void waiting.push({ name, body }), {
  each: (rows: readonly unknown[]) => (name: string, body: (...row: Row) => unknown) => {
    for (const row of rows) it(name, () => body(...(Array.isArray(row) ? (row as Row) : [row])));
  },
});

export const describe = Object.assign((_name: string, body: Body) => void body(), {
  each: (rows: readonly unknown[]) => (_name: string, body: (...row: Row) => unknown) => {
    for (const row of rows) body(...(Array.isArray(row) ? (row as Row) : [row]));
  },
});

/** The name of the first test that fails; null where none does. */
export async function failure(): Promise<string | null> {
  if (waiting.length === 0) throw new Error('there is no test');
  for (const { name, body } of waiting) {
    try {
      await body();
    } catch {
      return name;
    }
  }
  return null;
}
