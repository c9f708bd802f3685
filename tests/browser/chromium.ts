/** Pages in a real browser, for tests: what it shows, what it asks the network for, what an accessibility checker says. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { launched } from './launched.js';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export interface Visit {
  page: Page;
  /** Addresses that the page asked for beside itself; none of them was answered. */
  requests: string[];
  /** Errors in the console and exceptions that nothing caught. */
  errors: string[];
}

export interface VisitOptions {
  /** CSS pixels. */
  width?: number;
  javaScript?: boolean;
  media?: 'screen' | 'print';
}

/** What axe-core holds against a page. */
export interface Complaint {
  rule: string;
  help: string;
  at: string[];
}

/**
 * One browser for the tests of a file, started before the first and closed after the last.
 *
 * @returns opens a document, as a file from the disk, in a window of its own
 */
export function inChromium(): (document: string, options?: VisitOptions) => Promise<Visit> {
  let browser: Browser;
  let folder: string;
  let documents = 0;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'pages-'));
    browser = await launched();
    // A busy machine takes a while to start it.
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    if (folder) rmSync(folder, { recursive: true, force: true });
  });
  return async (document, { width = 1280, javaScript = true, media = 'screen' } = {}) => {
    const path = join(folder, `${++documents}.html`);
    writeFileSync(path, document);
    const address = pathToFileURL(path).href;
    const context = await browser.newContext({
      viewport: { width, height: 900 },
      javaScriptEnabled: javaScript,
    });
    const page = await context.newPage();
    const requests: string[] = [];
    const errors: string[] = [];
    await page.route('**/*', (route) => {
      const url = route.request().url();
      // A page's own worker is of the page.
      if (url === address || url.startsWith('blob:')) return route.continue();
      requests.push(url);
      return route.abort();
    });
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    page.on('pageerror', (error) => errors.push(error.message));
    await page.emulateMedia({ media });
    await page.goto(address);
    return { page, requests, errors };
  };
}

/** What axe-core finds wrong with the page, by all of its rules. */
export async function complaints(page: Page): Promise<Complaint[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: {
        run(): Promise<{ violations: { id: string; help: string; nodes: { html: string }[] }[] }>;
      };
    };
    const { violations } = await axe.run();
    return violations.map(({ id, help, nodes }) => ({ rule: id, help, at: nodes.map((node) => node.html) }));
  });
}

/** How far the page can be scrolled sideways, CSS pixels: 0 where everything fits the window. */
export function sidewaysScroll(page: Page): Promise<number> {
  return page.evaluate(() => {
    const { document } = globalThis as unknown as {
      document: { documentElement: { scrollWidth: number; clientWidth: number } };
    };
    return document.documentElement.scrollWidth - document.documentElement.clientWidth;
  });
}
