/** The Chromium that a package brings, for Linux on x64: with system libraries and fonts of its own, so that nothing of the machine's is needed. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const HOME = new URL('../../node_modules/.cache/', import.meta.url).pathname;
const PACKED = '@sparticuz/chromium';

/** The package unpacks into the folder for temporary files, and its system libraries only where this name says which system it is. */
const SYSTEM = 'AWS_Lambda_nodejs22.x';

export interface Program {
  executablePath: string;
  env: NodeJS.ProcessEnv;
}

/** Unpacked once after each installation, in about two seconds. */
export function bundledChromium(): Program {
  const folder = join(HOME, 'chromium');
  if (!existsSync(folder)) unpack(folder);
  return {
    executablePath: join(folder, 'chromium'),
    env: {
      ...process.env,
      LD_LIBRARY_PATH: join(folder, 'al2023/lib'),
      // Only the fonts beside it: pages are laid out alike on every machine, on one without fonts too.
      FONTCONFIG_FILE: join(folder, 'only-these.conf'),
      XDG_CACHE_HOME: folder,
    },
  };
}

function unpack(folder: string): void {
  mkdirSync(HOME, { recursive: true });
  const fresh = mkdtempSync(join(HOME, 'chromium-'));
  try {
    execFileSync(
      process.execPath,
      ['--input-type=module', '--eval', `import chromium from '${PACKED}'; await chromium.executablePath();`],
      { cwd: HOME, env: { ...process.env, TMPDIR: fresh, AWS_EXECUTION_ENV: SYSTEM }, stdio: 'pipe' },
    );
    writeFileSync(
      join(fresh, 'only-these.conf'),
      `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir prefix="relative">fonts</dir>
  <cachedir prefix="xdg">fontconfig</cachedir>
</fontconfig>
`,
    );
    renameSync(fresh, folder);
  } catch (error) {
    // Another file's tests may have been quicker.
    if (!existsSync(folder)) throw error;
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
}
