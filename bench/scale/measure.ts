import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { encode } from 'next-auth/jwt';
import PgBoss from 'pg-boss';
import { ensureBuild, serve } from '../../scripts/support/app.mjs';
import { query } from '../../scripts/support/databases.mjs';
import { freePort } from '../../scripts/support/ports.mjs';
import { cookieNames } from '../../lib/core/people/cookies';
import { largeShop, openScaleServer } from './shop';

const SECRET = 'only-for-measuring-rimebook';
const TIMES = 20;

export type PageFigures = {
  name: string;
  /** 95th of a hundred, and the median. */
  p95: number;
  median: number;
  /** First byte, of the slowest. */
  firstByte: number;
  kb: number;
  /** A page's statements, and what the database alone took for them. */
  statements: number;
  sql: number;
};
export type ScaleFigures = {
  units: number;
  pages: PageFigures[];
  exportSeconds: number;
  /** The server's process once it has started, when all pages were drawn, and at most until the export was sent, MB. */
  restMb: number;
  pagesMb: number;
  peakMb: number;
  refitSeconds: number;
  plan: { first: number; all: number };
};

const at = (sorted: readonly number[], q: number) => sorted[Math.min(sorted.length - 1, Math.ceil(q * sorted.length) - 1)] ?? NaN;

async function signedIn(url: string, role: string): Promise<string> {
  const [user] = await query(url, `SELECT id FROM "User" WHERE role = $1::"Role" AND active ORDER BY email LIMIT 1`, [role]);
  const [session] = await query(
    url,
    `INSERT INTO "StaffSession" (id, "userId", "expiresAt", "createdAt", "lastSeenAt", "provenAt")
     VALUES (gen_random_uuid(), $1, now() + interval '30 days', now(), now(), now()) RETURNING id`,
    [user?.id],
  );
  return `${cookieNames('http:').session}=${await encode({ token: { sid: session?.id, jti: randomUUID() }, secret: SECRET })}`;
}

/** One page, so many times one after the other; warm. */
async function measurePage(url: string, base: string, cookie: string, [name, address]: readonly [string, string]): Promise<PageFigures> {
  let kb = 0;
  const all: number[] = [];
  let firstByte = 0;
  const once = async () => {
    const since = performance.now();
    const answer = await fetch(base + address, { headers: { cookie }, redirect: 'manual' });
    firstByte = Math.max(firstByte, performance.now() - since);
    const text = await answer.text();
    if (answer.status !== 200) throw new Error(`${address}: ${answer.status}`);
    kb = Buffer.byteLength(text) / 1000;
    return performance.now() - since;
  };
  const times = (await once()) > 5000 ? 3 : TIMES;
  await once();
  firstByte = 0;
  await query(url, 'SELECT pg_stat_statements_reset()');
  for (let i = 0; i < times; i++) all.push(await once());
  const [sum] = await query(
    url,
    `SELECT sum(calls)::float8 AS calls, sum(total_exec_time)::float8 AS ms FROM pg_stat_statements s JOIN pg_database d ON d.oid = s.dbid
     WHERE d.datname = current_database() AND query !~* '^(begin|commit|rollback|deallocate|set )' AND query !~ 'pgboss|PlanRun|OutboxMessage|pg_stat'`,
  );
  all.sort((a, b) => a - b);
  return { name, p95: at(all, 0.95), median: at(all, 0.5), firstByte, kb, statements: sum?.calls / times, sql: sum?.ms / times };
}

/** First proposal and the end of the search, s, from when a process took it up. */
async function measurePlan(url: string, clock: string): Promise<{ first: number; all: number }> {
  const [run] = await query(
    url,
    `INSERT INTO "PlanRun" (id, "createdById", "weekStart", "createdAt")
     SELECT gen_random_uuid(), (SELECT id FROM "User" WHERE role = 'dispatcher' LIMIT 1), date_trunc('week', $1::timestamptz)::date + 7, $1 RETURNING id`,
    [clock],
  );
  let began = 0;
  let first = 0;
  for (;;) {
    const [row] = await query(url, `SELECT status, result IS NOT NULL AS some FROM "PlanRun" WHERE id = $1`, [run?.id]);
    if (!began && row?.status !== 'queued') began = performance.now();
    if (!first && row?.some) first = performance.now();
    if (began && !['queued', 'running'].includes(row?.status)) {
      const all = (performance.now() - began) / 1000;
      if (row?.status !== 'done') throw new Error(`the search ended as ${row?.status}`);
      return { first: first ? (first - began) / 1000 : all, all };
    }
    if (began && performance.now() - began > 300_000) return { first: first ? (first - began) / 1000 : Infinity, all: Infinity };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** The weekly refit as the app's queue does it, on its threads, s. */
async function measureRefit(url: string): Promise<number> {
  const boss = new PgBoss({ connectionString: url, max: 1 });
  await boss.start();
  await query(url, `UPDATE "RefitRun" SET "finishedAt" = now() WHERE "finishedAt" IS NULL`);
  const finished = async () => Number((await query(url, `SELECT count(*) AS n FROM "RefitRun" WHERE "finishedAt" IS NOT NULL`))[0]?.n);
  const before = await finished();
  await boss.send('refit', {});
  let began = 0;
  for (;;) {
    if (!began && (await query(url, `SELECT 1 FROM "RefitRun" WHERE "finishedAt" IS NULL`)).length) began = performance.now();
    if ((await finished()) > before) break;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  await boss.stop();
  return (performance.now() - began) / 1000;
}

const mb = (pid = 0, what: 'VmHWM' | 'VmRSS') =>
  Number(new RegExp(`${what}:\\s+(\\d+)`).exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? NaN) / 1024;

/** The built app on a large shop: its pages, the export, the refit and a proposal. `only`: pages whose name holds it. */
export async function measureScale(units: number, only = '', pagesOnly = false): Promise<ScaleFigures> {
  const cluster = await openScaleServer();
  const { url, clock } = await largeShop(cluster, units);
  const port = await freePort(4600);
  const base = `http://localhost:${port}`;
  const env = {
    ...process.env,
    DATABASE_URL: url,
    NEXTAUTH_URL: base,
    NEXTAUTH_SECRET: SECRET,
    SMTP_URL: '',
    LOG_LEVEL: 'warn',
    RIMEBOOK_CLOCK: clock,
  };
  await ensureBuild({ distDir: '.next-test', env });
  await query(url, `DELETE FROM "PlanRun"`);
  const app = await serve({ port, distDir: '.next-test', env, onOutput: (text, isError) => isError && process.stderr.write(text) });
  try {
    const restMb = mb(app.child.pid, 'VmRSS');
    const [dispatcher, owner, technician] = [
      await signedIn(url, 'dispatcher'),
      await signedIn(url, 'owner'),
      await signedIn(url, 'technician'),
    ];
    const [one] = await query(
      url,
      `SELECT u.id, u."kitchenId" FROM "Unit" u JOIN "Reading" r ON r."unitId" = u.id GROUP BY u.id ORDER BY count(*) DESC, u.id LIMIT 1`,
    );
    const offices: [string, string][] = [
      ['due', '/due?show=overdue'], ['week', '/week'], ['rules', '/rules?show=month'], ['book', `/week/book?kitchen=${one?.kitchenId}`],
      ['squeeze', `/week/squeeze?kitchen=${one?.kitchenId}`], ['unit', `/units/${one?.id}`], ['kitchen', `/kitchens/${one?.kitchenId}`], ['customers', '/customers'],
      ['jobs', '/jobs'], ['search, one letter', '/api/find?q=a'], ['search, common word', '/api/find?q=reach'],
    ]; // prettier-ignore
    const pages: PageFigures[] = [];
    for (const page of offices) if (page[0].includes(only)) pages.push(await measurePage(url, base, dispatcher, page));
    const owners: [string, string][] = [['owner', '/owner'], ['ranking', '/owner/fouling'], ['shop', '/owner/shop'], ['right', '/owner/right']]; // prettier-ignore
    for (const page of owners) if (page[0].includes(only)) pages.push(await measurePage(url, base, owner, page));
    if ('round'.includes(only))
      pages.push(await measurePage(url, base, technician, ['round', `/api/sync/round?device=${randomUUID()}&name=bench`]));
    if (only || pagesOnly)
      return { units, pages, exportSeconds: NaN, restMb, pagesMb: NaN, peakMb: NaN, refitSeconds: NaN, plan: { first: NaN, all: NaN } };
    const pagesMb = mb(app.child.pid, 'VmHWM');
    const csv = await measurePage(url, base, owner, ['export', '/customers/export']);
    const peakMb = mb(app.child.pid, 'VmHWM');
    const plan = await measurePlan(url, clock);
    const refitSeconds = await measureRefit(url);
    return { units, pages: [...pages, csv], exportSeconds: csv.p95 / 1000, restMb, pagesMb, peakMb, refitSeconds, plan };
  } finally {
    await app.stop();
    if (!cluster.kept) await cluster.stopIfIdle();
  }
}
