import 'server-only';
import { createHash } from 'node:crypto';
import { takesVisits } from '../../../core/people/access';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Me, RoundReply } from '../../../core/tablet';
import type { Db, Prisma, Tx } from '../../../database/client';
import { shopSettings } from '../../shop/reads/settings';
import { visitsOnFile } from '../reads/visits-on-file';
import { partsOnTablet } from '../../parts/reads/parts';
import { handlingOf } from '../../refrigerant-book/reads/handling';
import { lockDevice, SOMEONE_ELSE, type DeviceInfo } from './device';

const DAY_MS = 86_400_000;
/** How far the round on the tablet reaches: what was left open, and the next week. */
const BACK_DAYS = 3;
const AHEAD_DAYS = 8;

type Asking = { db: Db; actor: Actor; now: Date };

/**
 * What a technician's tablet should hold, less what it has already, as JSON of a `RoundReply`: a day's round is a megabyte, and each visit
 * has been written out for its mark already. Remembers what it was handed.
 * @throws AppError not_allowed where the tablet holds someone else's work: theirs is never mixed with it
 */
export async function readRound(ctx: Asking, device: DeviceInfo, cursor: string): Promise<string> {
  const { changed, ...rest } = await readChanges(ctx, device, cursor);
  const reply: Omit<RoundReply, 'changed'> = rest;
  return `${JSON.stringify(reply).slice(0, -1)},"changed":[${changed.join(',')}]}`;
}

async function readChanges(ctx: Asking, device: DeviceInfo, cursor: string) {
  if (device.holder && device.holder !== ctx.actor.userId) throw new AppError('not_allowed', SOMEONE_ELSE);
  return ctx.db.$transaction(
    async (tx) => {
      const { lastSeq, userId } = await lockDevice(tx, ctx.actor, device, ctx.now);
      const ids = await roundIds(tx, ctx.actor.userId, device.id, ctx.now);
      const shop = await shopSettings(tx);
      const visits = await visitsOnFile(tx, ids, userId, { shop });
      const cursorOf = new Map(cursor.split('.').map((part) => [part.slice(0, 36), part.slice(36)]));
      const marked = visits.map((visit) => {
        const text = JSON.stringify(visit);
        return { visit, text, mark: createHash('sha256').update(text).digest('base64url').slice(0, 12) };
      });
      await tx.deviceVisit.createMany({
        data: visits.filter((v) => !v.nowWith).map((v) => ({ deviceId: device.id, visitId: v.id, givenAt: ctx.now })),
        skipDuplicates: true,
      });
      return {
        serverTime: ctx.now.toISOString(),
        me: await readMe(tx, ctx.actor.userId, shop ?? { currency: 'USD' }),
        cursor: marked.map((m) => m.visit.id + m.mark).join('.'),
        order: visits.map((v) => v.id),
        changed: marked.filter((m) => cursorOf.get(m.visit.id) !== m.mark).map((m) => m.text),
        backedUpAt: shop?.backedUpAt?.toISOString() ?? null,
        lastSeq,
      };
    },
    { timeout: 30_000, maxWait: 20_000 },
  );
}

const BEGUN = {
  OR: [
    { arrivedAt: { not: null } },
    { findings: { some: {} } },
    { readings: { some: {} } },
    { outcomes: { some: {} } },
    { tasks: { some: { answeredAt: { not: null } } } },
    { photos: { some: {} } },
    { parts: { some: {} } },
    { sealedSteps: { some: {} } },
  ],
} satisfies Prisma.VisitWhereInput;

/**
 * The technician's own visits, and those this device holds though they are someone else's or cancelled by now. What has
 * been begun and is not finished stays, however far off the office moved it.
 */
async function roundIds(tx: Tx, userId: string, deviceId: string, now: Date): Promise<string[]> {
  const [from, to] = [new Date(now.getTime() - BACK_DAYS * DAY_MS), new Date(now.getTime() + AHEAD_DAYS * DAY_MS)];
  const rows = await tx.visit.findMany({
    where: {
      OR: [
        { technicianId: userId, startsAt: { lt: to }, status: { in: ['booked', 'started'] } },
        { technicianId: userId, startsAt: { gte: from, lt: to } },
        { startsAt: { gte: from, lt: to }, devices: { some: { deviceId } } },
        { startsAt: { gte: to }, status: { in: ['booked', 'started'] }, devices: { some: { deviceId } }, ...BEGUN },
      ],
    },
    select: { id: true },
  });
  return rows.map((r) => r.id);
}

async function readMe(tx: Tx, userId: string, { currency, dates }: Pick<Me, 'currency' | 'dates'>): Promise<Me> {
  const u = await tx.user.findUniqueOrThrow({ where: { id: userId } });
  const { certificates, cylinders } = await handlingOf(tx, userId);
  return {
    userId: u.id,
    name: u.name,
    role: u.role,
    gaugeGrade: u.gaugeGrade,
    gaugeSpanPa: u.gaugeSpanPa,
    currency,
    dates,
    certificates,
    cylinders,
    parts: await partsOnTablet(tx, userId),
    temperatureUnit: u.temperatureUnit,
    pressureUnit: u.pressureUnit,
    massUnit: u.massUnit,
    ...(takesVisits(u) ? { sharesArrivals: u.sharesArrivals } : {}),
  };
}
