/** The frame that every HTML document shares. */
import { BASE_CSS } from './base-css.js';
import { html, tag } from './markup.js';
import { PRINT_CSS } from './print-css.js';

/** A script that stands in the page, and the base64 of its SHA-256: the page runs that script and no other. */
export interface InlineScript {
  readonly code: string;
  readonly sha256: string;
}

export interface HtmlPage {
  /** Any text; made safe here. */
  title: string;
  /** Language of the text, BCP 47. */
  lang: string;
  /** Of the link past the head, in that language. */
  skip?: string;
  /** Rules beside {@link BASE_CSS}. */
  css?: string;
  /** Markup of the body. Its `main` has the id `main`, which the skip link leads to. */
  body: string;
  script?: InlineScript;
}

/** All before the body's markup. With {@link pageEnd} for a page that is written piece by piece. */
export function pageStart({
  title,
  lang,
  css = '',
  script,
  skip = 'Skip to the content',
}: Omit<HtmlPage, 'body'>): string {
  return [
    '<!doctype html>',
    `<html lang="${html(lang)}">`,
    '<head>',
    '<meta charset="utf-8">',
    // Nothing is fetched, sent or framed, and should a name ever slip through as markup its script does not run.
    tag('meta', { 'http-equiv': 'Content-Security-Policy', content: contentPolicy(script) }),
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${html(title)}</title>`,
    `<style>\n${BASE_CSS}${PRINT_CSS}${css}</style>`,
    '</head>',
    '<body>',
    tag('a', { class: 'skip', href: '#main' }, html(skip)),
    '',
  ].join('\n');
}

/** All after the body's markup. */
export function pageEnd({ script }: Pick<HtmlPage, 'script'>): string {
  return `${script ? `<script>${script.code}</script>\n` : ''}</body>\n</html>\n`;
}

/** A whole document that stands by itself: it fetches nothing and uses the fonts that are there. */
export function htmlPage({ body, ...frame }: HtmlPage): string {
  return `${pageStart(frame)}${body}\n${pageEnd(frame)}`;
}

function contentPolicy(script: InlineScript | undefined): string {
  return [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    ...(script ? [`script-src 'sha256-${script.sha256}'`] : []),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}
