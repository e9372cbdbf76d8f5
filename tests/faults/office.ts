import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';

const root = path.join(import.meta.dirname, '../..');
export const SECRET = 'only-for-the-fault-test-of-rimebook';

/** Bundles the handlers once, so that a killed office is back in well under a second. */
export async function bundleOffice(): Promise<string> {
  const folder = path.join(root, '.data/faults');
  mkdirSync(folder, { recursive: true });
  const outfile = path.join(folder, `office-${process.pid}.mjs`);
  await build({
    absWorkingDir: root,
    entryPoints: ['tests/faults/office-process.ts'],
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    outfile,
    logLevel: 'error',
    external: ['pg', '@prisma/*', 'sharp', 'pino', '@node-rs/argon2', 'next-auth/*'],
    alias: { 'next/headers': './tests/faults/next-headers.ts', 'server-only': './tests/support/server-only.ts', '@': '.' },
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
  });
  return outfile;
}

/** The office, which a test may kill at any moment and start again on the same port. */
export class Office {
  private child: ChildProcess | null = null;
  private starting: Promise<void> | null = null;

  constructor(
    private readonly bundle: string,
    private readonly port: number,
    private readonly databaseUrl: string,
  ) {}

  get base(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  start(): Promise<void> {
    return (this.starting ??= new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [this.bundle], {
        cwd: root,
        stdio: ['ignore', 'pipe', process.env.FAULTS_VERBOSE ? 'inherit' : 'ignore'],
        env: {
          ...process.env,
          PORT: String(this.port),
          DATABASE_URL: this.databaseUrl,
          NEXTAUTH_SECRET: SECRET,
          LOG_LEVEL: process.env.FAULTS_VERBOSE ? 'error' : 'silent',
          NODE_ENV: 'production',
        },
      });
      this.child = child;
      let open = false;
      child.stdout?.once('data', () => {
        open = true;
        resolve();
      });
      child.once('exit', (code) => {
        if (code) reject(new Error(`The office stopped with code ${code}.`));
        // Killed by another fault before it was open: whoever waits for it waits for the next one.
        else if (!open) resolve(this.start());
      });
    }));
  }

  /** Killed outright, in the middle of whatever it was doing. */
  async kill(): Promise<void> {
    const { child } = this;
    this.child = null;
    this.starting = null;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await gone;
  }
}
