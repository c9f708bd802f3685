import { describe, expect, it } from 'vitest';
import { everythingSaid } from '../cli/hostile-shop.js';
import { inChromium } from './chromium.js';

const open = inChromium();

describe('a page or picture of names that are scripts', () => {
  it('runs none of them', async () => {
    const documents = await everythingSaid(['html', 'svg']);
    expect(documents.length).toBe(6);
    for (const { args, written } of documents) {
      const dialogs: string[] = [];
      const { page, requests, errors } = await open(`<!doctype html><title>before</title>${written}`);
      page.on('dialog', (dialog) => {
        dialogs.push(dialog.message());
        void dialog.dismiss();
      });
      await page.reload();
      expect({ args, dialogs, requests, errors }).toEqual({ args, dialogs: [], requests: [], errors: [] });
      expect(await page.locator('img').count()).toBe(0);
      expect(await page.locator('body').textContent()).toContain('onerror=alert(1)');
      await page.close();
    }
  });

  it('is told from one that runs them', async () => {
    const { page } = await open('<title>x</title><img src=x onerror="document.title=\'hit\'">');
    await expect.poll(() => page.title()).toBe('hit');
  });
});
