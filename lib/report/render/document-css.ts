/** The look of a document's blocks, beside what every page shares. */
export const DOCUMENT_CSS = `.verdict { font-size: 1.1rem; }
.level-fail { color: var(--fail); } .level-warn { color: var(--warn); } .level-sound { color: var(--sound); }
.facts dd + dd { grid-column: 2; }
.entries { list-style: none; padding: 0; }
.entries > li { display: grid; grid-template-columns: 6.5em minmax(0, 1fr); gap: .2em .8em; padding: .5em 0; border-top: 1px solid var(--line); }
.entries p { margin: .2em 0 0; }
.entry-mark { display: flex; align-items: start; gap: .4em; flex-wrap: wrap; }
.caution { border-left: 4px solid var(--fail); padding-left: .8em; }
figure { margin: 0 0 1.2em; }
.picture { overflow-x: auto; border: 1px solid var(--line); max-width: 52rem; }
.picture > svg { width: 100%; min-width: 30rem; }
figcaption { padding: .5em 0; font-size: .9rem; max-width: 52rem; }
.keys { list-style: none; padding: 0; margin: .4em 0 0; display: flex; flex-wrap: wrap; gap: .2em 1.4em; }
.keys li { display: flex; align-items: center; gap: .4em; }
.keys svg { flex: none; }
.on-paper { display: none; }
@media print {
  .on-paper { display: block; }
  .on-screen { display: none; }
  .entries > li { break-inside: avoid; padding: .3em 0; }
  .picture { border: 0; overflow: visible; }
  .picture > svg { min-width: 0; }
}
`;
