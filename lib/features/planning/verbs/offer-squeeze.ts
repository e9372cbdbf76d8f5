import 'server-only';
import { mustGet } from '../../../core/numerics/must-get';
import type { Skill } from '../../../core/people/skills';
import { SKILL_WORDS } from '../../../core/visits/concerns';
import { needsOf } from '../../../core/visits/needs';
import { instantOf } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { squeezeIn, SQUEEZE_PRICES } from '../../../core/planning';
import type { SqueezeAnswer, SqueezeOffer } from '../../../core/planning/squeeze/offer';
import type { Db } from '../../../database/client';
import { squeezeProblem, unitsAt } from '../reads/squeeze';
import { bookingKitchen } from '../../visits/reads/visits';
import type { SqueezeAsk } from '../../../schemas/visits/squeeze';

const SHOWN = 8;
/** What cannot wait and is not reached within this long is a matter for the telephone. */
const SOON_MINUTES = 120;

/** Ways to fit an emergency in within seven days, least disturbance first. Books nothing. @throws AppError not_found | invalid */
export async function offerSqueeze({ db, now }: { db: Db; now: Date }, ask: SqueezeAsk): Promise<SqueezeAnswer> {
  const kitchen = await bookingKitchen(db, ask.kitchenId);
  if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.', 'kitchenId');
  if (kitchen.archived) throw new AppError('conflict', 'That kitchen is out of use. Put it back in use first.', 'kitchenId');
  const fromMs = Math.max(now.getTime(), instantOf(ask.date, ask.from, kitchen.timeZone));
  const week = await squeezeProblem(db, ask.kitchenId, new Date(fromMs));
  const skills = needsOf(await unitsInNeed(db, ask));
  const emergency = {
    kitchenId: ask.kitchenId,
    name: ask.what,
    minutes: ask.minutes,
    skills,
    open: ask.anyHour ? [{ startMs: fromMs, endMs: week.until.getTime() }] : undefined,
  };
  const options = squeezeIn(week.problem, week.booked, emergency, fromMs, SQUEEZE_PRICES);
  const nameOf = (id: string) => week.names.get(id) ?? 'Someone not working now';
  const offers = options.slice(0, SHOWN).map((o): SqueezeOffer => ({
    technicianId: o.technicianId,
    technician: nameOf(o.technicianId),
    startMs: o.hours.startMs,
    endMs: o.hours.endMs,
    waitMinutes: Math.round(o.waitMinutes),
    extraDriveMinutes: Math.round(o.extraDriveMinutes),
    overtimeMinutes: Math.round(o.overtimeMinutes),
    onCall: o.onCall,
    phone: week.phones.get(o.technicianId) ?? '',
    moves: o.moved.map((m) => {
      const { version, kitchen: name, customer, timeZone, confirmed } = mustGet(week.standing, m.visitId);
      return {
        visitId: m.visitId,
        version,
        kitchen: name,
        customer,
        timeZone,
        confirmed,
        fromTechnician: nameOf(m.fromTechnicianId),
        technicianId: m.technicianId,
        technician: nameOf(m.technicianId),
        wasMs: m.from.startMs,
        startMs: m.to.startMs,
        endMs: m.to.endMs,
      };
    }),
  }));
  const soonest = Math.min(...offers.map((o) => o.waitMinutes));
  const couldAsk = soonest <= SOON_MINUTES ? [] : week.problem.technicians.filter((t) => skills.every((s) => t.skills.includes(s)));
  return {
    offers,
    timeZone: kitchen.timeZone,
    couldAsk: couldAsk.map((t) => ({ name: t.name, phone: week.phones.get(t.id) ?? '' })),
    notes: notesOn(week, skills, offers.length === 0, kitchen.name),
  };
}

/** Units whose skills the work asks for: those named, or any of the kitchen when none is. */
export async function unitsInNeed(db: Db, ask: Pick<SqueezeAsk, 'kitchenId' | 'unitIds'>) {
  const units = await unitsAt(db, ask.kitchenId);
  const named = units.filter((u) => ask.unitIds.includes(u.id));
  if (named.length < ask.unitIds.length)
    throw new AppError('conflict', 'A chosen unit is no longer on file at this kitchen. Choose again.', 'unitIds');
  return named.length > 0 ? named : units;
}

function notesOn(week: Awaited<ReturnType<typeof squeezeProblem>>, skills: Skill[], none: boolean, kitchen: string): string[] {
  const notes: string[] = [];
  if (week.withoutPlace) notes.push(`${kitchen} has no position on file: the drive there is a guess.`);
  if (!none) return notes;
  if (week.problem.technicians.length === 0) return [...notes, 'No technician is on file yet, so nobody can be sent.'];
  const able = week.problem.technicians.filter((t) => skills.every((s) => t.skills.includes(s)));
  if (able.length === 0) notes.push(`Nobody on file may do this: it needs ${skills.map((s) => SKILL_WORDS[s]).join(' and ')}.`);
  else if (able.every((t) => t.shifts.length === 0))
    notes.push(
      `${able.map((t) => t.name).join(', ')} could do it and ${able.length === 1 ? 'has' : 'have'} no shift in the next seven days.`,
    );
  else
    notes.push('Nobody has room in the next seven days, even with one visit moved. Move or cancel a visit by hand, or ask for less time.');
  return notes;
}
