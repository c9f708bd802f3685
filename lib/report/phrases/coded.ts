/** Reasons that are a code with its figures, in words. */
interface WithCode {
  readonly code: string;
  readonly params: object;
}

/** What a catalog has for the codes of `T`, spoken. */
export type Sayings<T extends WithCode> = {
  readonly [C in T['code']]: string | ((params: never) => string);
};

/** The sentence of a reason: a phrase of its code, with its figures where it takes any. */
export function sayCoded<T extends WithCode>({ code, params }: T, phrases: Sayings<T>): string {
  const phrase = phrases[code as T['code']];
  return typeof phrase === 'string' ? phrase : phrase(params as never);
}
