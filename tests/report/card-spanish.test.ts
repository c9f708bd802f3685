import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { HOOP_FIELDS, PLACES } from '../../lib/materials/places.js';
import { operatorCard } from '../../lib/report/card/page.js';
import { EN } from '../../lib/report/phrases/en.js';
import { ES, SPANISH } from '../../lib/report/phrases/es.js';
import { wordsIn } from '../../lib/report/phrases/words.js';
import { cardInput, hoopNamed, OPTIONS, sampleDesign } from './card-input.js';
import { littleCrest } from './little-design.js';

const SPANISH_CARD = { ...OPTIONS, language: 'es' } as const;
const words = wordsIn(ES, SPANISH, { units: 'mm', detail: 'full' });

/** What a page says, pictures with it, without its markup and the line for the log, which programs read. */
const said = (page: string): string =>
  page
    .slice(page.indexOf('<body>'))
    .replace(/<code>.*?<\/code>/g, ' ')
    .replace(/<path[^>]*>/g, ' ')
    .replace(/<[^>]*aria-label="([^"]*)"[^>]*>/g, ' $1 ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#39;/g, "'")
    .replace(/\s+/g, ' ');

/** Everything that can be on a card at once. */
const crowded = () =>
  cardInput(sampleDesign('jacket-back.dst'), {
    hoop: hoopNamed('frame-430x290'),
    grainDeg: 60,
    place: PLACES[0],
    plan: {
      underlay: [1, 2, 3].map((object) => ({ object, to: 'fill' as const })),
      hoopingNotes: [
        { code: 'as-it-lies', params: {} },
        { code: 'trim-backing', params: { leftMm: 10 } },
        { code: 'topping-last', params: { removedBy: 'heat' } },
        { code: 'hoop-marks', params: { washable: false } },
      ],
    },
    advised: {
      meets: 'no',
      failures: ['needle-points-piled', 'file-no-end-record'],
      changes: ['width', 'laundering'],
      cautionCodes: ['cap-frame', 'holes-stay', 'heat', 'not-for-washing', 'skin'],
    },
  });

describe('the card in Spanish', () => {
  it('says so to the browser, and leaves no English on the page', async () => {
    for (const input of [cardInput(littleCrest()), crowded()]) {
      const page = await operatorCard(input, { ...SPANISH_CARD, cost: true });
      expect(page).toContain('<html lang="es">');
      // What the trade calls its sheets stands behind their Spanish names.
      expect(said(page).replace(/\((cut|tear)-away\)/g, '')).not.toMatch(
        /\b(the|and|with|of|is|needle|hoop|backing|topping|stitch(es)?|thread|turned|grade|wash(es)?|Keep)\b/,
      );
    }
  });

  it('has the same figures as the English one, in the same order', async () => {
    const figures = (page: string) => said(page).match(/\d[\d.,]*\d|\d/g) ?? [];
    for (const units of ['mm', 'in'] as const) {
      const [english, spanish] = await Promise.all(
        (['en', 'es'] as const).map((language) =>
          operatorCard(cardInput(littleCrest()), { ...OPTIONS, units, language }),
        ),
      );
      expect(figures(spanish)).toEqual(figures(english));
    }
  });

  it('has every caution and check, and every warning at the top', async () => {
    const page = await operatorCard(crowded(), SPANISH_CARD);
    const items = (list: string) =>
      page.match(new RegExp(`class="marks ${list}">(.*?)</ul>`))![1].match(/<li>/g)!.length;
    expect(items('cautions')).toBe(5 + Object.keys(EN.card.cautions).length);
    expect(items('checks')).toBe(Object.keys(EN.card.checks).length);
    expect(page).toContain(
      'NO BORDE el archivo como está: perforaciones amontonadas y archivo dañado o raro.',
    );
    expect(page).toContain('NO BORDE CON ESTE BASTIDOR');
    expect(page).toContain('REVISE PRIMERO');
    expect(page).toContain('SE NECESITA EL ARCHIVO CAMBIADO: un relleno ligero debajo de los objetos 1 a 3');
  });

  it('names everything that is built in, and leaves a name of the shop as it is', () => {
    const { fabrics, sheets, toppings, needles, threads } = CATALOGUE;
    const names = [fabrics, sheets, toppings, needles, threads]
      .flatMap((shelf): { name: string }[] => Object.values(shelf))
      .concat(HOOP_FIELDS, PLACES)
      .map(({ name }) => name);
    for (const name of names) expect(words.setup.material({ name }), name).not.toBe(name);
    expect(words.setup.material({ name: 'felt of ours' })).toBe('felt of ours');
  });

  // The Unicode CLDR, which the engine brings along: es-US.
  it('writes figures as Spanish does in the United States', () => {
    const usual = new Intl.NumberFormat('es-US');
    for (const n of [7, 1234, 45_678, 1_234_567]) expect(words.say.count(n)).toBe(usual.format(n));
    expect(words.say.plain(12.5, 1)).toBe(usual.format(12.5));
    expect(words.say.objects([1, 2, 3, 7])).toBe('objetos 1 a 3 y 7');
  });
});
