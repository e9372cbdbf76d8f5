import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { inProject, keep } from './paths.mjs';
import { Plain } from './say.mjs';

const SYSTEM = {
  linux: ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome', '/snap/bin/chromium'],
  darwin: ['/Applications/Chromium.app/Contents/MacOS/Chromium', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'],
  win32: ['C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe'],
};

const HOW_TO = `No browser for the end-to-end tests was found that starts. Any one of these helps:
  apt-get install chromium              (Debian, Ubuntu: a system Chromium)
  apt-get install libnss3 libnspr4      (then the Chromium from npm starts)
  npx playwright install chromium       (Playwright's own)
  CHROMIUM_PATH=/path/to/chromium       (one that is somewhere else)`;

/** The first line a browser says about itself, or why it does not start. */
function tryOut(program) {
  const { status, stdout, stderr, error } = spawnSync(program, ['--version', '--no-sandbox'], {
    encoding: 'utf8',
    timeout: 30_000,
  });
  if (status === 0) return { starts: true };
  return { starts: false, why: error?.message ?? stderr.trim().split('\n')[0] ?? stdout };
}

/** Unpack the Chromium from npm once, into the project's own folder. */
async function fromNpm() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return undefined;
  const { version } = JSON.parse(readFileSync(inProject('node_modules/@sparticuz/chromium/package.json'), 'utf8'));
  const folder = path.join(keep, `chromium-${version}`);
  if (existsSync(folder)) return path.join(folder, 'chromium');
  // The package unpacks into the system's temporary folder: lend it another one, and keep it only when it is whole.
  const unfinished = `${folder}.${process.pid}`;
  const before = process.env.TMPDIR;
  mkdirSync(unfinished, { recursive: true });
  process.env.TMPDIR = unfinished;
  try {
    const { default: chromium } = await import('@sparticuz/chromium');
    await chromium.executablePath();
  } finally {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  }
  // Another program may have been quicker.
  if (existsSync(folder)) rmSync(unfinished, { recursive: true });
  else renameSync(unfinished, folder);
  return path.join(folder, 'chromium');
}

/**
 * A browser: CHROMIUM_PATH, Playwright's own, then one of the system or the one from npm. That one has no window and does the
 * same work for two thirds of the processor's time: what only has to be tried takes it first.
 * @param {{ light?: boolean }} [wish]
 * @returns {Promise<{ name: string, executablePath?: string }>} no path: Playwright knows where its own is
 * @throws {Plain} naming what to install
 */
export async function findBrowser({ light = false } = {}) {
  const tried = [];
  const usable = (name, program) => {
    const { starts, why } = tryOut(program);
    if (!starts) tried.push(`  ${program}: ${why}`);
    return starts && { name, executablePath: program };
  };
  const given = process.env.CHROMIUM_PATH;
  if (given) {
    const found = usable('CHROMIUM_PATH', given);
    if (found) return found;
    throw new Plain(`CHROMIUM_PATH names a browser that does not start.\n${tried.join('\n')}`);
  }
  const { chromium } = await import('@playwright/test');
  const own = chromium.executablePath();
  if (existsSync(own) && usable("Playwright's own", own)) return { name: "Playwright's own" };
  const ofSystem = () => {
    for (const program of (SYSTEM[process.platform] ?? []).filter(existsSync)) {
      const found = usable('the system', program);
      if (found) return found;
    }
  };
  const ofNpm = async () => {
    const packed = await fromNpm();
    return packed && usable('npm', packed);
  };
  for (const look of light ? [ofNpm, ofSystem] : [ofSystem, ofNpm]) {
    const found = await look();
    if (found) return found;
  }
  throw new Plain([HOW_TO, ...(tried.length > 0 ? ['Tried:', ...tried] : [])].join('\n'));
}
