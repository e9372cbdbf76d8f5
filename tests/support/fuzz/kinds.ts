import { randomUUID } from 'node:crypto';
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseWithZod } from '@conform-to/zod/v4';
import { asTyped } from '@/lib/schemas/values/as-typed';
import ICAL from 'ical.js';
import sharp from 'sharp';
import { z } from 'zod';
import { addDays, CalendarError, dueBetween, nextDue, parseRule, todayIn, type Anchor, type Plan } from '@/lib/core/calendar';
import { isAppError } from '@/lib/core/errors';
import { PLACEMENTS } from '@/lib/core/equipment/build';
import type { Bucket } from '@/lib/core/due/buckets';
import { RandomStream } from '@/lib/core/numerics/random';
import { ENTRY_VERSION } from '@/lib/core/tablet';
import type { Db } from '@/lib/database/client';
import { dueCounts, duePage, zonesOnFile } from '@/lib/features/due/reads';
import { createFeed } from '@/lib/features/feeds/verbs/create-feed';
import { readFeed } from '@/lib/features/feeds/verbs/read-feed';
import { reEncoded } from '@/lib/features/files/verbs/re-encode';
import { findRecords } from '@/lib/features/find/reads/find';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { reply } from '@/lib/features/links/verbs/reply';
import { applyEntries } from '@/lib/features/tablet/verbs/apply-entries';
import { PAYLOADS, SyncRequest } from '@/lib/schemas/tablet/entries';
import { CustomerReply } from '@/lib/schemas/customers/links';
import { haveOneUnit, visitRow, visitTaskRow } from '../factories';
import { fleetCsv } from '../fleet-csv';
import { json, oneOf, spoiled, spoiledBytes, spoiledJson, text } from './nonsense';

const NOW = new Date('2026-11-25T15:00:00Z');
const TODAY = todayIn('America/Denver', NOW.getTime());
export type Shop = Awaited<ReturnType<typeof fuzzShop>>;

/** A shop that nonsense is sent to. */
export async function fuzzShop(db: Db) {
  const kept = await haveOneUnit(db);
  const visit = await db.visit.create({ data: visitRow(kept.kitchen.id, kept.person.id, NOW, 90) });
  await db.visitTask.createMany({ data: kept.tasks.map((t) => visitTaskRow(visit.id, { id: t.id, unitId: t.unitId })) });
  const feed = await createFeed({ db, now: NOW, baseUrl: 'http://localhost' }, { kitchenId: kept.kitchen.id });
  const picture = await sharp({ create: { width: 160, height: 120, channels: 3, background: '#8ab' } })
    .jpeg()
    .toBuffer();
  // What a server has read in before anybody asks is no part of an answer.
  await (allSchemas ??= schemas());
  return { db, ...kept, visit, feed, picture, csv: fleetCsv(12) };
}

/** Refused in words, or taken: anything else is thrown on. */
async function refused(work: () => unknown): Promise<void> {
  try {
    await work();
  } catch (e) {
    if (!isAppError(e) && !(e instanceof CalendarError)) throw e;
  }
}

const RULE_PARTS = ['FREQ=', 'DAILY', 'WEEKLY', 'MONTHLY', 'YEARLY', ';', 'INTERVAL=', 'BYDAY=', 'MO', 'TU', 'BYMONTHDAY=', 'BYMONTH=', 'BYSETPOS=', '30', '2', '-1', 'COUNT=', 'UNTIL=']; // prettier-ignore
const GOOD_RULES = [
  'FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30',
  'FREQ=DAILY;INTERVAL=7;BYDAY=TU',
  'FREQ=MONTHLY;BYDAY=1MO',
  'FREQ=WEEKLY;INTERVAL=6',
] as const;

function rules(_: Shop, random: RandomStream) {
  const rule = random.next() < 0.5 ? text(random, RULE_PARTS) : spoiled(random, oneOf(random, [...GOOD_RULES]));
  return refused(() => {
    const plan = { rule: parseRule(rule).text, anchor: oneOf<Anchor>(random, ['calendar', 'last_completed']), anchorDate: TODAY, lastDoneOn: null } satisfies Plan; // prettier-ignore
    nextDue(plan);
    dueBetween(plan, TODAY, addDays(TODAY, 365));
  });
}

function sheets({ db, person, csv }: Shop, random: RandomStream) {
  const ctx = { db, actor: { userId: person.id }, now: NOW };
  const head = Array.from({ length: 1 + Math.floor(random.next() * 8) }, () =>
    text(random, ['Customer', 'Unit', 'Type', 'Refrig', 'Chg', 'Last PM']),
  );
  const own = [head, ...Array.from({ length: 6 }, () => head.map(() => text(random)))].map((row) => row.join(',')).join('\n');
  return refused(() => checkImport(ctx, { fileName: text(random), csv: random.next() < 0.6 ? spoiled(random, csv) : own }));
}

async function sync({ db, person, visit, unit, tasks }: Shop, random: RandomStream) {
  const at = NOW.toISOString();
  const kinds = Object.keys(PAYLOADS);
  const payload = { unitId: unit.id, taskId: tasks[0]?.id, aspect: 'coil', grade: 'furred', phase: 'found', note: text(random), at, values: { airInK: 300 }, outcome: 'done', reason: '' }; // prettier-ignore
  const one = () => ({
    id: randomUUID(), seq: 1, kind: kinds[Math.floor(random.next() * kinds.length)], version: ENTRY_VERSION, visitId: visit.id,
    madeAt: at, basedOn: at, payload: random.next() < 0.7 ? { ...payload, ...(json(random) as object) } : json(random, 6),
  }); // prettier-ignore
  const body = {
    device: { id: randomUUID(), holder: person.id, name: 'Tablet', appVersion: 'x' },
    sentAt: at,
    // Tablets from before 2026-11-27 say `operations`.
    [random.next() < 0.1 ? 'operations' : 'entries']: [one(), { ...one(), seq: 2 }],
  };
  const parsed = SyncRequest.safeParse(random.next() < 0.5 ? body : spoiledJson(random, body));
  if (!parsed.success) return;
  const actor = { userId: person.id, name: person.name, role: 'technician' as const, sessionId: randomUUID() };
  let fault: unknown;
  await refused(() => applyEntries({ db, actor, now: NOW, onUnexpected: (e: unknown) => (fault = e) }, parsed.data));
  if (fault) throw new Error(`an entry was tripped over: ${JSON.stringify(parsed.data).slice(0, 2000)}`, { cause: fault });
}

/** Every schema that a form or call is read by. */
async function schemas(): Promise<[string, z.ZodType][]> {
  const folder = path.resolve(import.meta.dirname, '../../../lib/schemas');
  const found: [string, z.ZodType][] = [];
  for (const name of (await readdir(folder, { recursive: true })).filter((f) => f.endsWith('.ts')).sort()) {
    const file: Record<string, unknown> = await import(pathToFileURL(path.join(folder, name)).href);
    for (const [key, schema] of Object.entries(file)) if (schema instanceof z.ZodType) found.push([`${name} ${key}`, schema]);
  }
  return found;
}
let allSchemas: Promise<[string, z.ZodType][]> | undefined;

async function forms(_: Shop, random: RandomStream) {
  const [name, schema] = oneOf(random, await (allSchemas ??= schemas()));
  const keys = schema instanceof z.ZodObject ? Object.keys(schema.shape) : ['name', 'id'];
  const form = new FormData();
  for (const key of [...keys, text(random).slice(0, 60)])
    if (random.next() < 0.8) form.append(random.next() < 0.1 ? `${key}[0].x` : key, text(random));
  try {
    parseWithZod(form, { schema: asTyped(schema), disableAutoCoercion: true });
    schema.safeParse(json(random, 5));
  } catch (e) {
    throw new Error(`${name} threw over ${JSON.stringify([...form]).slice(0, 2000)}`, { cause: e });
  }
}

async function queries({ db }: Shop, random: RandomStream) {
  const zones = await zonesOnFile(db, NOW);
  const q = text(random, ['reach', 'a', '555', 'tava']).slice(0, 80);
  // As pages cut them: what PostgreSQL cannot hold is no search.
  await findRecords(db, q);
  const filter = {
    q: q.trim() || undefined,
    area: text(random).trim().slice(0, 80) || undefined,
    placement: oneOf(random, PLACEMENTS),
  };
  await dueCounts(db, zones, filter, 14);
  await duePage(db, zones, oneOf<Bucket>(random, ['overdue', 'week', 'month']), filter, { limit: 25 });
}

const pictures = ({ picture }: Shop, random: RandomStream) => refused(() => reEncoded(spoiledBytes(random, picture)));

async function calendars({ db, kitchen, feed }: Shop, random: RandomStream) {
  const answer = CustomerReply.safeParse({
    token: text(random),
    answer: oneOf(random, ['confirmed', 'other_time', text(random)]),
    startsAt: text(random),
    note: text(random),
  });
  if (answer.success) await refused(() => reply({ db, now: NOW }, answer.data));
  await refused(() => readFeed({ db, now: NOW }, text(random)));
  // Whatever stands on file, the file is one that calendars read, with what is in it and nothing more.
  const storable = text(random)
    .replace(/\u0000|\p{Surrogate}/gu, '')
    .slice(0, 300);
  await db.kitchen.update({ where: { id: kitchen.id }, data: { accessNotes: storable, address: storable } });
  const file = await readFeed({ db, now: NOW }, String(feed).split('/').at(-1) ?? '');
  const events = new ICAL.Component(ICAL.parse(file)).getAllSubcomponents('vevent');
  if (events.length !== 1) throw new Error(`${events.length} events: ${file.slice(0, 2000)}`);
}

export const FUZZ = { rules, sheets, sync, forms, queries, pictures, calendars };

/** `slowestMs` by the clock; `busiestMs` what one case kept the processor busy, which other work on the machine does not lengthen. */
export type FuzzResult = { cases: number; slowestMs: number; slowest: number; busiestMs: number; busiest: number; peakMb: number };

/** So many cases of a kind from a seed. Throws with the number of the case that was answered by anything but words. */
export async function fuzz(shop: Shop, kind: keyof typeof FUZZ, cases: number, seed: number): Promise<FuzzResult> {
  let [slowestMs, slowest, busiestMs, busiest, peakMb] = [0, 0, 0, 0, 0];
  for (let n = 0; n < cases; n++) {
    const since = performance.now();
    const before = process.cpuUsage();
    try {
      await FUZZ[kind](shop, new RandomStream(seed, `${kind} ${n}`));
    } catch (cause) {
      throw new Error(`${kind}, seed ${seed}, case ${n}: ${cause instanceof Error ? cause.message : String(cause)}`, { cause });
    }
    const ms = performance.now() - since;
    const { user, system } = process.cpuUsage(before);
    if (ms > slowestMs) [slowestMs, slowest] = [ms, n];
    if ((user + system) / 1000 > busiestMs) [busiestMs, busiest] = [(user + system) / 1000, n];
    if (n % 50 === 0) peakMb = Math.max(peakMb, process.memoryUsage().rss / 1e6);
  }
  return { cases, slowestMs, slowest, busiestMs, busiest, peakMb };
}
