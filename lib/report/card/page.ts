/** The card that goes to the machine operator: one printed page with all that is set up, checked and written down. */
import { blocksAsHtml } from '../render/html.js';
import { html, tag } from '../render/markup.js';
import { htmlPage } from '../render/page.js';
import { colorTables } from './colors.js';
import { cardCss } from './css.js';
import { hoopInset } from './hoop-inset.js';
import type { CardInput, CardOptions } from './input.js';
import { chooseLayout } from './layout.js';
import { recordSection } from './record.js';
import { riskPicture } from './risk-picture.js';
import { stackLayers } from './stack-layers.js';
import { textsOf } from './texts.js';
import { type DrawingPlan, trueScale } from './true-scale.js';
import { drawnSheets, partName } from './true-size-sheets.js';
import { cardWords } from './words.js';

/**
 * Sets the card.
 *
 * @returns a whole HTML document that fetches nothing, for one sheet of the paper printed at 100 %, and for those that the picture at
 *   true size takes where it does not fit on that
 * @throws RangeError for a design without stitches: there is nothing to sew
 */
export async function operatorCard(input: CardInput, options: CardOptions): Promise<string> {
  if (input.stitches.count === 0) throw new RangeError('a card needs stitches');
  const { units, language } = options;
  const words = cardWords(language, units);
  const { card } = words;
  const texts = textsOf(input, options, words);
  const { bounds } = input.designMeasures;
  const { stitches, hoop, grainDeg } = input;
  const layout = chooseLayout({ ...texts, bounds, hoop }, options.paper);
  const { across, apart } = layout;
  const { starts } = texts;
  const drawnFor = (drawing: DrawingPlan) => ({
    ...{ stitches, bounds, hoop, grainDeg, starts, words: card },
    label: card.pictureOf(drawing),
  });
  const figure = (look: string | null, drawing: DrawingPlan, svg: string): string => {
    const caption = texts.captionOf(drawing);
    const words = tag('figcaption', {}, tag('strong', {}, html(caption.scale)), ' ', html(caption.rest));
    return tag('figure', { class: look }, svg, words);
  };
  const { drawing } = layout;
  const picture = figure(across ? 'across' : null, drawing, trueScale(drawnFor(drawing), drawing));
  const colors = section(card.colors.title, colorTables(texts.colors, words));
  const risk = section(
    card.risk.title,
    ...texts.risk.map((line) => tag('p', {}, html(line))),
    await riskPicture(input.maps, bounds, layout.riskRoom, units, words),
  );
  const hooping = (look: string): string => section(card.hoopingTitle, list(look, texts.hooping));
  const facts = texts.setup.map(([label, text]) => ({ label, text }));
  const right = [
    section(card.layers.title, stackLayers(texts.layers), tag('p', {}, html(texts.stackNote))),
    section(
      card.setup.title,
      tag('div', { class: 'setup' }, blocksAsHtml([{ is: 'facts', facts }])),
      layout.inset && input.hoop ? hoopInset(input.hoop, bounds, words) : '',
    ),
    ...texts.changes.map((line) => tag('p', { class: 'alert' }, html(line))),
    ...(layout.hoopingBelow ? [] : [hooping('hooping')]),
  ];
  const columns = across
    ? picture + tag('div', {}, colors, risk) + tag('div', {}, ...right)
    : tag('div', {}, picture, colors) + tag('div', {}, ...right, risk);
  const pictures = apart ? drawnSheets(drawnFor(apart.drawing), apart) : [];
  const all = 1 + pictures.length;
  const first = tag(
    'div',
    { class: 'card' },
    tag('h1', {}, html(texts.title)),
    ...(texts.job === '' ? [] : [tag('p', { class: 'job' }, html(texts.job))]),
    tag('p', {}, html(texts.facts)),
    ...[...texts.alerts, ...(apart ? [card.moreSheets({ sheets: all })] : [])].map((line) =>
      tag('p', { class: 'alert' }, html(line)),
    ),
    tag('div', { class: 'body' }, columns),
    ...(layout.hoopingBelow ? [hooping('marks notes')] : []),
    section(card.checksTitle, list('marks checks', texts.checks)),
    section(card.cautionsTitle, list('marks cautions', texts.cautions)),
    recordSection(texts.record, words),
  );
  const sheets = pictures.map((svg, k) => {
    const part = apart && partName(apart, k);
    const notes = [
      ...(part ? [card.parts[part], card.joining] : []),
      ...(apart?.turned ? [card.turnSheet] : []),
    ];
    return tag(
      'section',
      { class: 'card second' },
      tag('h2', {}, html(card.sheet({ title: texts.title, sheet: k + 2, of: all }))),
      ...(notes.length === 0 ? [] : [tag('p', {}, html(notes.join(' ')))]),
      figure(null, apart!.drawing, svg),
    );
  });
  return htmlPage({
    title: card.pageTitle({ file: options.title }),
    lang: language,
    skip: card.skip,
    css: cardCss({ paper: options.paper, ...layout }),
    body: tag('main', { id: 'main', class: 'sheets' }, first, ...sheets),
  });
}

const section = (heading: string, ...content: readonly string[]): string =>
  tag('section', {}, tag('h2', {}, html(heading)), ...content);

const list = (look: string, lines: readonly string[]): string =>
  tag('ul', { class: look }, ...lines.map((line) => tag('li', {}, html(line))));
