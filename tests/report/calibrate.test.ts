import { describe, expect, it } from 'vitest';
import { FREE } from '../../lib/calibrate/free-parameters.js';
import { type CalibrateDetail, calibrateToText } from '../../lib/report/calibrate/document.js';
import { noFit } from '../../lib/report/calibrate/faults.js';
import type { CalibrateReport } from '../../lib/report/calibrate/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';

const SETTING = { file: 'bold.dst', fabric: 'poplin', stack: 'none', underlay: 'as-is', washes: 0 };

const parameter = (
  name: (typeof FREE)[number],
  more: Partial<CalibrateReport['parameters'][number]> = {},
): CalibrateReport['parameters'][number] => ({
  name,
  meaning: `what ${name} is`,
  unit: 'N',
  value: 0.15,
  low: 0.14,
  high: 0.16,
  interval: { low: 0.119, high: 0.181, level: 0.95 },
  builtIn: { value: 0.129, low: 0.09, high: 0.14 },
  told: 0.87,
  atBound: false,
  stands: 'usual',
  sure: false,
  ...more,
});

const reportOf = (more: Partial<CalibrateReport> = {}): CalibrateReport => ({
  schema: 'lieflat/calibrate@1',
  helps: true,
  log: { path: 'log.csv', used: 11, settings: 2, ungraded: [14], faults: [], gradesLack: null },
  parameters: [parameter('tension', { stands: 'above', sure: true })],
  held: [],
  errors: { before: 0.9, fitted: 0.65, leaveOneOut: 0.71, oneGrade: 0.5 },
  widthErrors: { before: 0.08, fitted: 0.03, leaveOneOut: 0.04, oneWidth: 0.1 },
  rows: [
    row(2, { grade: 4, foretold: 3.9, residual: 0.1 }),
    row(3, { grade: 5, foretold: 2.1, residual: 2.9, outlying: true }),
  ],
  next: [{ ...SETTING, object: null, sewOuts: 4, narrows: { name: 'tension', part: 0.15 } }],
  restsOn: ['It rests on one thing.', 'It rests on another.'],
  calibration: {},
  ...more,
});

const row = (
  line: number,
  more: Partial<CalibrateReport['rows'][number]>,
): CalibrateReport['rows'][number] => ({
  ...SETTING,
  line,
  grade: null,
  before: null,
  foretold: null,
  residual: null,
  leftOut: null,
  outlying: false,
  width: null,
  remarks: '',
  ...more,
});

const said = (report: CalibrateReport, detail?: CalibrateDetail, width = 80): string =>
  calibrateToText(report, { width, units: 'mm' }, detail);
const flowing = (text: string): string => text.replace(/\s+/g, ' ');

describe('a calibration in words', () => {
  it('says what the machine does beside most, and keeps the figures back', () => {
    const text = said(reportOf());
    expect(text).toMatch(/^FITTED {2}log\.csv: 11 sew-outs, 2 of them different\n/);
    expect(text).toContain('Your machine pulls harder than most');
    expect(flowing(text)).toContain('That tells most about how hard your machine pulls.');
    expect(text).not.toMatch(/0\.119|0\.129|0\.71|87|tension|root mean|narrows|It rests on/);
    expect(text).toContain('--explain');
  });

  it('adds the figures and what they rest on where it is asked for them', () => {
    const text = said(reportOf(), { explain: true });
    expect(text).toMatch(/tension +0\.15 N +0\.119 to 0\.181 +0\.129 +87 % +what tension/);
    expect(flowing(text)).toContain('miss by 0.71 on a sew-out that the fit has not seen');
    expect(flowing(text)).toContain('It narrows the range of tension by about 15 %.');
    expect(text).toContain('It rests on another.');
    expect(text).not.toContain('--explain');
  });

  it.each(FREE)('has a sentence for %s wherever it stands, surer where it is surer', (name) => {
    const says = (stands: 'above' | 'below' | 'usual' | 'open', sure = false) =>
      said(reportOf({ parameters: [parameter(name, { stands, sure })] }))
        .split('What your sew-outs say')[1]
        .split('\n\n')[0];
    const all = [
      says('above', true),
      says('above'),
      says('below', true),
      says('below'),
      says('usual'),
      says('open'),
    ];
    expect(new Set(all).size).toBe(all.length);
    expect([all[1], all[3]].every((text) => /seems? to/.test(text))).toBe(true);
    expect([all[0], all[2]].some((text) => /seems? to/.test(text))).toBe(false);
  });

  it('lists the rows to check, or every row with those marked', () => {
    const few = said(reportOf());
    expect(few).toContain('log.csv:3');
    expect(few).not.toContain('log.csv:2');
    const all = said(reportOf(), { rows: true });
    expect(all).toMatch(/log\.csv:2 .* grade 4 +3\.9 +\+0\.1\n/);
    expect(all).toMatch(/log\.csv:3 .* grade 5 +2\.1 +\+2\.9 !\n/);
    const none = said(reportOf({ rows: [row(2, { grade: 4, foretold: 4, residual: 0 })] }));
    expect(none).not.toContain('Check these rows');
  });

  it('says to keep what is in use where a fit is no better, and why grades or figures are left out', () => {
    const text = said(
      reportOf({
        helps: false,
        log: { ...reportOf().log, gradesLack: 'every grade is 4' },
        held: [{ name: 'firstWash', value: 0.6, unit: '', why: 'no grade changes enough with washing' }],
      }),
    );
    expect(text).toMatch(/^NO BETTER {2}/);
    expect(flowing(text)).toContain('keep it. The grades were not used: every grade is 4.');
    expect(flowing(text)).toContain('the first wash brings: no grade changes enough with washing.');
  });

  it.each([40, 80])('fits %i columns, whatever the log is called', (width) => {
    const log = { ...reportOf().log, path: `\u001b[31m${'long name '.repeat(9)}.csv` };
    const text = said(reportOf({ log }), { rows: true, explain: true }, width);
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    expect(text).not.toContain('\u001b');
  });
});

describe('a log that cannot be fitted', () => {
  it('comes to one error that says what is missing and what to do', () => {
    const error = noFit({ code: 'few-grades', params: { graded: 1, needed: 10, rows: 1 } }, 'log.csv');
    expect(error).toMatchObject({ code: 'no-fit', place: 'log.csv' });
    expect(error.message).toMatch(
      /^log\.csv: the log has only 1 graded sew-out to use, and a fit needs 10; grade more, /,
    );
  });
});
