/** What the page of a vet report adds to the look that all pages share. */
export const VET_CSS = `.verdict { font-size: 1.1rem; }
.design-section { border-top: 3px solid var(--ink); margin-top: 2.5rem; padding-top: .1rem; }
h2 .severity { margin-right: .4em; }
figure { margin: 0 0 1.2em; }
.picture { overflow-x: auto; border: 1px solid var(--line); max-width: 52rem; }
.picture svg { width: 100%; min-width: 30rem; }
figcaption { padding: .5em 0; font-size: .9rem; max-width: 52rem; }
.keys { list-style: none; padding: 0; margin: .4em 0 0; display: flex; flex-wrap: wrap; gap: .2em 1.4em; }
.keys li { display: flex; align-items: center; gap: .4em; }
.keys svg { flex: none; }
.what { min-width: 17rem; display: inline-block; }
.why { min-width: 7rem; display: inline-block; }
footer { border-top: 1px solid var(--line); margin-top: 2.5rem; padding-top: .8rem; color: var(--quiet); font-size: .875rem; }
@media print {
  .design-section { margin-top: 1rem; }
  .picture { border: 0; overflow: visible; max-width: 150mm; }
  .picture svg { min-width: 0; max-height: 170mm; }
  .design-section + .design-section { break-before: page; }
  .what, .why { min-width: 0; }
}
`;
