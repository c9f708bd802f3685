import { fixed } from './quantities.js';
import { printable } from './render/printable.js';

/**
 * Text from anywhere for an element or a quoted attribute of XML 1.0 or HTML: unsafe characters are written out, so are those that mark
 * markup; two that XML §2.2 excludes beside them become U+FFFD.
 */
export function xmlText(text: string): string {
  return printable(text)
    .replace(/[\ufffe\uffff]/g, '\ufffd')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}

/** An element; attribute values and `text` are escaped here, `inner` is markup already. */
export function element(
  name: string,
  attributes: Record<string, string | number>,
  content: { text: string } | { inner: string } | null = null,
): string {
  let tag = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    tag += ` ${key}="${typeof value === 'number' ? tidy(value) : xmlText(value)}"`;
  }
  if (content === null) return `${tag}/>`;
  return `${tag}>${'text' in content ? xmlText(content.text) : content.inner}</${name}>`;
}

/** A picture drawn in units of 0.1 mm of paper, at its true size; `name` is its class, `inner` markup. */
export const trueSizeSvg = (
  { name, width, height, label }: { name: string; width: number; height: number; label: string },
  inner: string,
): string =>
  element(
    'svg',
    {
      class: name,
      viewBox: `0 0 ${tidy(width)} ${tidy(height)}`,
      width: `${tidy(width / 10)}mm`,
      height: `${tidy(height / 10)}mm`,
      role: 'img',
      'aria-label': label,
    },
    { inner },
  );

/** A number as short as two digits after the point allow. */
export function tidy(value: number): string {
  return String(Number(fixed(value, 2)));
}
