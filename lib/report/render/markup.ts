/** Parts of an HTML document. What is called markup is safe to place as it is; every other text is made safe here. */
import { xmlText } from '../svg.js';

/** Text from anywhere as markup for an element or a quoted attribute: unsafe characters are written out, the rest escaped. */
export const html = xmlText;

/** Attributes of an element; `false` and `null` leave one out, `true` writes its name alone. */
export type Attributes = Readonly<Record<string, string | number | boolean | null>>;

/** Elements that never hold anything (HTML Living Standard, 13.1.2 "void elements"). */
const VOID = new Set(['br', 'col', 'hr', 'input', 'meta', 'wbr']);

/** An element; attribute values are made safe here, the children are markup. */
export function tag(name: string, attributes: Attributes = {}, ...children: readonly string[]): string {
  let open = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === false) continue;
    open += value === true ? ` ${key}` : ` ${key}="${html(String(value))}"`;
  }
  return VOID.has(name) ? `${open}>` : `${open}>${children.join('')}</${name}>`;
}
