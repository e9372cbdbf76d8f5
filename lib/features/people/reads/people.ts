import 'server-only';
import type { MeasureUnits } from '../../../core/measures/preferred';
import type { Tx } from '../../../database/client';
import { toLocalDate } from '../../../core/calendar/date-column';
import { weekly } from '../../visits/reads/visits';

const range = (r: { id: string; startsOn: Date; endsOn: Date; reason: string }) => ({
  id: r.id,
  startsOn: toLocalDate(r.startsOn),
  endsOn: toLocalDate(r.endsOn),
  reason: r.reason,
});

/** Everybody, the active first, with the number of open sessions. */
export async function listPeople(db: Tx, now: Date) {
  const rows = await db.user.findMany({
    orderBy: [{ active: 'desc' }, { role: 'asc' }, { name: 'asc' }],
    include: { sessions: { where: { revokedAt: null, expiresAt: { gt: now } }, orderBy: { lastSeenAt: 'desc' } } },
  });
  return rows.map((u) => ({
    id: u.id, name: u.name, email: u.email, role: u.role, alsoVisits: u.alsoVisits, active: u.active, skills: u.skills, shifts: weekly(u.shifts), sessions: u.sessions.length, lastSeenAt: u.sessions[0]?.lastSeenAt ?? null,
  })); // prettier-ignore
}

/** How somebody signs in: whether there is a second step, and the spare codes left. */
export async function signInFacts(db: Tx, id: string): Promise<{ email: string; secondStep: boolean; spareCodes: number }> {
  const u = await db.user.findUniqueOrThrow({ where: { id }, select: { email: true, secondStep: true, spareCodes: true } });
  return { email: u.email, secondStep: u.secondStep !== null, spareCodes: u.spareCodes.length };
}

/** Whether owners are asked for a second step; a shop that is not set up asks nobody. */
export const ownersGiveCode = async (db: Tx): Promise<boolean> =>
  (await db.shopSettings.findUnique({ where: { id: 1 }, select: { ownersGiveCode: true } }))?.ownersGiveCode ?? false;

/** Whether any owner signs in with a second step. */
export const anOwnerHasStep = async (db: Tx): Promise<boolean> =>
  (await db.user.count({ where: { role: 'owner', active: true, NOT: { secondStep: null } } })) > 0;

/** One person without what signs them in, or null. */
export async function personToEdit(db: Tx, id: string) {
  const u = await db.user.findUnique({
    where: { id },
    omit: { passwordHash: true, secondStep: true, secondStepUsed: true, spareCodes: true },
    include: { timeOff: { orderBy: { startsOn: 'asc' } } },
  });
  return u && { ...u, shifts: weekly(u.shifts), onCall: weekly(u.onCall), timeOff: u.timeOff.map(range) };
}

/** Units of measure the person reads in. */
export async function unitsOf(db: Tx, userId: string): Promise<MeasureUnits> {
  const u = await db.user.findUnique({ where: { id: userId }, select: { temperatureUnit: true, pressureUnit: true, massUnit: true } });
  return {
    temperature: u?.temperatureUnit ?? 'F',
    pressure: u?.pressureUnit ?? 'psig',
    mass: u?.massUnit ?? 'oz',
  };
}

/** Whether the person's tablet may tell where it is at an arrival; null until they have said. */
export const sharesArrivals = async (db: Tx, userId: string): Promise<boolean | null> =>
  (await db.user.findUnique({ where: { id: userId }, select: { sharesArrivals: true } }))?.sharesArrivals ?? null;

/** Whether anybody is on file yet. */
export const anyoneOnFile = async (db: Tx): Promise<boolean> => (await db.user.findFirst({ select: { id: true } })) !== null;
