/**
 * The look that every page shares on the screen. Ink on white has a contrast of 16 to 1, the quiet gray
 * 7 to 1 (WCAG 2.1, 1.4.3 asks for 4.5); what a color says, a word and a shape say too.
 */
export const BASE_CSS = `:root {
  color-scheme: light;
  --ink: #1c1c1c; --quiet: #4f5458; --line: #8b9196; --wash: #f2f3f1; --link: #12406b;
  --fail: #8c1c13; --warn: #6b4700; --sound: #17552f;
}
*, *::before, *::after { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0; padding: 1rem; color: var(--ink); background: #fff;
  font: 1rem/1.45 system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", sans-serif;
  overflow-wrap: anywhere;
}
main, body > header, body > footer { max-width: 72rem; margin-inline: auto; }
h1, h2, h3, h4 { line-height: 1.2; margin: 1.6em 0 .5em; }
h1 { font-size: 1.6rem; margin-top: 0; }
h2 { font-size: 1.3rem; }
h3 { font-size: 1.05rem; }
h4 { font-size: 1rem; }
p, ul, ol, dl { margin: 0 0 .8em; }
a { color: var(--link); }
a:focus-visible, button:focus-visible, [tabindex]:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
.skip { position: absolute; left: -999rem; }
.skip:focus { left: 1rem; top: .5rem; z-index: 1; padding: .4rem .7rem; background: #fff; border: 2px solid var(--ink); }
.quiet { color: var(--quiet); }
.small { font-size: .875rem; }
.table { overflow-x: auto; margin: 0 0 1.2em; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; overflow-wrap: normal; }
caption { text-align: left; padding: 0 0 .5em; color: var(--quiet); }
th, td { text-align: left; vertical-align: top; padding: .35em .6em; border-bottom: 1px solid var(--line); }
thead th { vertical-align: bottom; border-bottom: 2px solid var(--ink); }
tbody th { font-weight: 600; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
th button { all: unset; white-space: nowrap; cursor: pointer; text-decoration: underline; text-underline-offset: .2em; font-weight: 600; }
th button::after { content: "\\2195"; display: inline-block; width: 1em; margin-left: .3em; text-align: center; text-decoration: none; }
th[aria-sort="ascending"] button::after { content: "\\2191"; }
th[aria-sort="descending"] button::after { content: "\\2193"; }
.facts { display: grid; grid-template-columns: fit-content(40%) minmax(0, 1fr); gap: .2em 1em; }
.facts dt { color: var(--quiet); }
.facts dd { margin: 0; min-width: 0; }
.severity { display: inline-block; min-width: 3.6em; padding: .05em .4em; border: 2px solid currentColor; text-align: center; font-size: .85rem; font-weight: 700; white-space: nowrap; }
.severity.fail { color: #fff; background: var(--fail); border-color: var(--fail); }
.severity.warn { color: var(--warn); border-style: solid; }
.severity.note { color: var(--quiet); border: 1px dashed currentColor; font-weight: 400; }
.severity.sound { color: var(--sound); border-style: double; border-width: 4px; }
svg { display: block; max-width: 100%; height: auto; }
`;
