/** A browser for tests and for the bench. */
import { type Browser, chromium, type LaunchOptions } from 'playwright-core';
import { bundledChromium } from './bundled-chromium.js';

export const launched = (): Promise<Browser> =>
  chromium.launch({
    ...whichChromium(),
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

/** The one that was asked for, or the one that comes with the tests, or, where that does not run, an installed one. */
function whichChromium(): LaunchOptions {
  const { env, platform, arch } = process;
  if (env.LIEFLAT_CHROMIUM) return { executablePath: env.LIEFLAT_CHROMIUM };
  if (platform === 'linux')
    return arch === 'x64' ? bundledChromium() : { executablePath: '/usr/bin/chromium' };
  return { channel: platform === 'win32' ? 'msedge' : 'chrome' };
}
