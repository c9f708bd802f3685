/** A whole order as a document: what to load, what to watch, each line, what to take from the shelf, the price. */

import { isLittleRoom } from '../../materials/places.js';
import type { FindingCode } from '../../vetting/finding.js';
import { kindsIn } from '../advise/plan-report.js';
import type {
  Block,
  Cell,
  Figure,
  Level,
  ReportDocument,
  ReportSection,
  Rich,
  TableColumn,
} from '../document.js';
import { sayCoded } from '../phrases/coded.js';
import { type Words, wordsFor } from '../phrases/words.js';
import type { Units } from '../quantities.js';
import { renderHtml } from '../render/html.js';
import { printable } from '../render/printable.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import { namespaced } from './joined-pages.js';
import type { OrderLineReport, OrderReport, OrderSetupReport } from './report.js';

type OrderWords = Words<'order' | 'common' | 'setup' | 'advice'>;

/** @param pictures markup of an `svg` a line, by its number; the page says where the others are */
export function orderDocument(
  report: OrderReport,
  words: OrderWords,
  pictures: ReadonlyMap<number, string> = new Map(),
): ReportDocument {
  const { order } = words;
  const { lines, totals } = report;
  return {
    title: order.title({ lines: lines.length + report.errors.length, pieces: totals.pieces }),
    language: 'en',
    blocks: [
      answer(report, words),
      ...errorSection(report, words),
      ...setupSections(report, words),
      ...watchSection(report, words),
      ...(lines.length > 0 ? [lineSection, shelfSection, priceSection].map((of) => of(report, words)) : []),
      ...pictureSection(lines, pictures, words),
    ],
  };
}

/**
 * A report as text: what `lieflat order` prints.
 *
 * @param folder where the files are, to say so; left out, nothing is said
 */
export function orderToText(
  report: OrderReport,
  { folder, ...options }: TextOptions & { readonly folder?: string },
): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  const document = orderDocument(report, words);
  if (folder === undefined || report.lines.length === 0) return renderText(document, options);
  const text = words.order.made({ folder: printable(folder) });
  return renderText({ ...document, blocks: [...document.blocks, { is: 'paragraph', text }] }, options);
}

/** The decision page: a whole HTML document that fetches nothing. */
export const orderPage = (report: OrderReport, pictures: ReadonlyMap<number, string>, units: Units): string =>
  renderHtml(orderDocument(report, wordsFor({ units, detail: 'full', commands: false }), pictures));

function answer({ lines, setups, errors }: OrderReport, { order }: OrderWords): Block {
  const count = (verdict: OrderLineReport['verdict']) =>
    lines.filter((line) => line.verdict === verdict).length;
  const [stops, checks] = [count('fail'), count('warn')];
  const level = stops + errors.length > 0 ? 'fail' : checks > 0 ? 'warn' : 'sound';
  return {
    is: 'verdict',
    level,
    word: order.verdict[level],
    line: order.answer({
      lines: lines.length,
      setups: setups.length,
      checks,
      stops,
      errors: errors.length,
    }),
  };
}

function errorSection({ errors }: OrderReport, { order }: OrderWords): ReportSection[] {
  if (errors.length === 0) return [];
  const items = errors.map((error) => order.error(error));
  return [{ is: 'section', title: order.errorsTitle, blocks: [{ is: 'list', items }] }];
}

function setupSection(one: OrderSetupReport, shared: ReadonlySet<string>, words: OrderWords): ReportSection {
  const { order, setup } = words;
  const { label } = order;
  const level: Level = ({ yes: 'sound', may: 'warn', no: 'fail' } as const)[one.meets];
  const facts: { label: string; text: Rich }[] = [
    { label: label.backing, text: order.backing({ name: one.stackName, kinds: kindsIn(one.stack) }) },
    { label: label.topping, text: one.toppingName ?? setup.none },
    { label: label.needle, text: one.needleName },
    { label: label.speed, text: order.speed(one) },
    ...(one.hoops.length > 0 ? [{ label: label.hoop, text: order.hoops(one) }] : []),
    {
      label: label.holds,
      text: [{ text: order.holds({ ...one.accepted, ...one, lines: one.lines.length }), level }],
    },
  ];
  const own = hoopingOf(one, words).filter((note) => !shared.has(note));
  return {
    is: 'section',
    title: `${order.loadTitle}: ${order.setupTitle({ fabric: one.fabricName, lines: one.lines })}`,
    blocks: [{ is: 'facts', facts }, ...(own.length > 0 ? [{ is: 'list', items: own } as const] : [])],
  };
}

const hoopingOf = ({ hoopingNotes }: OrderSetupReport, { setup }: OrderWords): string[] =>
  hoopingNotes.map((note) => sayCoded(note, setup.hooping));

/** What is minded in hooping every one of several setups. */
function sharedHooping(setups: readonly OrderSetupReport[], words: OrderWords): string[] {
  if (setups.length < 2) return [];
  const [first, ...others] = setups.map((one) => hoopingOf(one, words));
  return first.filter((note) => others.every((notes) => notes.includes(note)));
}

function setupSections({ setups }: OrderReport, words: OrderWords): ReportSection[] {
  const shared = sharedHooping(setups, words);
  const said = new Set(shared);
  return [
    ...setups.map((one) => setupSection(one, said, words)),
    ...(shared.length > 0
      ? [
          {
            is: 'section',
            title: words.order.allSetupsTitle,
            blocks: [{ is: 'list', items: shared }],
          } as const,
        ]
      : []),
  ];
}

function watchSection({ lines, setups }: OrderReport, { order, setup, advice }: OrderWords): ReportSection[] {
  // Nothing is to be loaded where the verdict is not to sew.
  const relaid = lines
    .filter(({ relaid: file, verdict }) => file !== null && verdict !== 'fail')
    .map(({ line }) => line);
  const narrow = lines.filter(({ narrowForThread }) => narrowForThread).map(({ line }) => line);
  const garments = new Map(
    lines.flatMap(({ garment, madeOf, takenAs }) =>
      madeOf === null ? [] : [[garment.toLowerCase(), { garment, madeOf, takenAs }] as const],
    ),
  );
  const items: Rich[] = [
    ...lines.flatMap(({ line, failures, hoop, meets, upper, capOrder }): Rich[] => [
      ...(failures.length > 0 ? [[strong(order.failures({ line, codes: failures }))]] : []),
      ...(hoop?.holds ? [] : [[strong(order.noHoop({ line, hoop: hoop?.name ?? null }))]]),
      ...(hoop?.holds && isLittleRoom(hoop.roomMm)
        ? [order.ofLine({ line, says: `${hoop.name}: ${setup.traceInHoop(hoop)}` })]
        : []),
      ...(meets === 'yes' ? [] : [order.missing({ line, meets, upper })]),
      ...(capOrder.length > 0 ? [order.cap({ line, objects: capOrder })] : []),
    ]),
    ...warned(lines).map(order.warnings),
    ...(narrow.length > 0 ? [order.smallLetters({ lines: narrow })] : []),
    ...(relaid.length > 0 ? [order.relaidFiles({ lines: relaid })] : []),
    ...[...garments.values()].map(order.madeOf),
    ...(lines.length > 0 ? [order.test] : []),
  ];
  const cautions = [...new Set(setups.flatMap(({ cautionCodes }) => cautionCodes))];
  if (items.length === 0) return [];
  return [
    {
      is: 'section',
      title: order.watchTitle,
      blocks: [
        { is: 'list', items },
        ...cautions.map(
          (code) =>
            ({
              is: 'caution',
              text: [{ text: advice.caution, strong: true }, setup.cautions[code]],
            }) as const,
        ),
      ],
    },
  ];
}

/** Lines in which the same is to be looked at. What stops a line is said of it already. */
function warned(lines: readonly OrderLineReport[]): { lines: number[]; codes: readonly FindingCode[] }[] {
  const alike = new Map<string, { lines: number[]; codes: readonly FindingCode[] }>();
  for (const { line, warnings, failures } of lines) {
    if (warnings.length === 0 || failures.length > 0) continue;
    const key = warnings.toSorted().join();
    const same = alike.get(key);
    if (same) same.lines.push(line);
    else alike.set(key, { lines: [line], codes: warnings });
  }
  return [...alike.values()];
}

const strong = (text: string) => ({ text, strong: true, level: 'fail' }) as const;

function lineSection({ lines, totals }: OrderReport, words: OrderWords): ReportSection {
  const { order, common, say, advice } = words;
  const { column } = order;
  const given = (key: 'order' | 'customer' | 'due') => lines.some((line) => line[key] !== '');
  const told = (['order', 'customer', 'due'] as const).filter(given);
  const columns: TableColumn[] = [
    { head: column.line, number: true, namesRow: true, sorts: true },
    ...told.map((key): TableColumn => ({ head: column[key], sorts: true, for: 'page' })),
    { head: column.garment, for: 'page', sorts: true },
    { head: column.quantity, number: true, sorts: true },
    { head: column.asSewn, for: 'page', number: true, sorts: true },
    { head: column.washed, for: 'page', number: true, sorts: true },
    { head: column.minutes, number: true, sorts: true },
    { head: column.price(totals), number: true, sorts: true },
    { head: column.verdict, sorts: true },
    { head: column.file, flexible: true, breaks: true },
    { head: order.card, for: 'page' },
  ];
  const rows = lines.map((line): Cell[] => [
    { text: String(line.line), by: line.line },
    ...told.map((key) => line[key]),
    line.garment,
    { text: say.count(line.quantity), by: line.quantity },
    { text: order.grade(line.riskNow), by: line.riskNow.grade },
    { text: order.grade(line.riskWashed), by: line.riskWashed.grade },
    { text: order.minutes({ minutes: line.minutesEach }), by: line.minutesEach },
    { text: say.money(line.priceEach), by: line.priceEach },
    [{ text: common.verdict[line.verdict], level: line.verdict }],
    line.verdict === 'fail' ? order.loadNone : line.sewn,
    [{ text: order.card, href: encodeURI(line.card) }],
  ]);
  const because = lines.flatMap(({ line, verdictReasons: reasons }) =>
    reasons.length === 0 ? [] : [order.ofLine({ line, says: advice.because({ reasons }) })],
  );
  return {
    is: 'section',
    title: order.linesTitle,
    blocks: [
      { is: 'table', id: 'lines', columns, rows, ...(because.length > 0 && { note: because.join(' ') }) },
      { is: 'paragraph', text: order.gradesNote, for: 'page' },
      { is: 'paragraph', text: [{ text: order.cards, href: 'cards.html' }], for: 'screen' },
    ],
  };
}

function shelfSection({ supplies }: OrderReport, { order, setup }: OrderWords): ReportSection {
  const { kind, column } = order;
  const length = (what: string, item: string, lengthMm: number): Cell[] => [
    what,
    item,
    order.thread({ lengthMm }),
    '',
  ];
  const rows: Cell[][] = [
    ...supplies.sheets.map((one) => [
      kind.backing,
      one.kind === 'woven' ? setup.wovenSheet(one) : one.sheetName,
      order.pieces(one),
      order.cut(one),
    ]),
    ...supplies.toppings.map((one) => [kind.topping, one.toppingName, order.pieces(one), order.cut(one)]),
    ...supplies.threads.map(({ color, lengthMm }) =>
      length(kind.thread, color ?? order.colorNotGiven, lengthMm),
    ),
    length(kind.bobbin, '', supplies.bobbinMm),
    ...supplies.needles.map(({ needleName }) => [kind.needle, needleName, '', '']),
  ];
  const unnamed = supplies.threads.some(({ color }) => color === null);
  return {
    is: 'section',
    title: order.shelfTitle,
    blocks: [
      {
        is: 'table',
        id: 'shelf',
        columns: [
          { head: column.what, namesRow: true },
          { head: column.item, flexible: true },
          { head: column.amount, number: true },
          { head: column.cut({}), number: true },
        ],
        rows,
        ...(unnamed && { note: order.colorsNote }),
      },
    ],
  };
}

function priceSection({ totals }: OrderReport, { order }: OrderWords): ReportSection {
  const { label } = order;
  const price = order.price(totals);
  const text: Rich =
    totals.price < totals.cost ? [price, { text: order.belowCost, level: 'fail', strong: true }] : price;
  return {
    is: 'section',
    title: order.priceTitle,
    blocks: [
      {
        is: 'facts',
        facts: [
          { label: label.price, text },
          { label: label.cost, text: order.cost(totals) },
          { label: label.machine, text: order.machine(totals) },
          { label: label.labor, text: order.labor({ minutes: totals.laborMinutes }) },
        ],
      },
      ...(totals.ratesAreBuiltIn ? [{ is: 'paragraph', text: order.startingPrice({}) } as const] : []),
    ],
  };
}

function pictureSection(
  lines: readonly OrderLineReport[],
  pictures: ReadonlyMap<number, string>,
  { order }: OrderWords,
): ReportSection[] {
  if (pictures.size === 0) return [];
  const blocks = lines.map(({ line, file, proof }): Figure | Block => {
    const svg = pictures.get(line);
    const caption = order.pictureOf({ line, file });
    if (svg === undefined)
      return { is: 'paragraph', text: order.pictureElsewhere({ line, proof }), for: 'page' };
    return { is: 'figure', svg: namespaced(svg, `p${line}-`), caption, label: caption };
  });
  return [{ is: 'section', title: order.picturesTitle, blocks, for: 'page' }];
}
