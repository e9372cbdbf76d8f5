import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { RETURN_CAUSES, RETURN_LOOKS_AT, RETURN_WORDS, returnVisits, type UnitBelief } from '../../../core/evidence';
import { dayInWords } from '../../../core/intervals/words';
import { fromLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';
import { returnsOfUnit, type ReturnOnFile } from '../reads/return-visits';

type Asked = {
  belief: UnitBelief;
  visitId: string;
  on: LocalDate;
  timeZone: string;
  withinDays: number;
  by: string | null;
  now: Date;
};

/**
 * A visit that saw the unit has met what earlier ones asked to go back for; then it asks for its own. What the same day
 * asked for already is not doubled, and nobody goes back for what a later visit has looked at since.
 */
export async function openReturnVisits(tx: Tx, asked: Asked): Promise<string[]> {
  const { belief, visitId, on, timeZone, withinDays, by, now } = asked;
  const { unitId, findings, trips, cleanings } = belief.file;
  const onFile = await returnsOfUnit(tx, unitId, timeZone);
  const earlier = onFile.filter((r) => r.openedOn < on);
  const looked = await lookedAt(tx, visitId, unitId);
  await settleMet(
    tx,
    earlier.filter((r) => looked.has(aspectOf(r.what) ?? '')),
    asked,
  );
  if (findings.some((f) => f.on > on)) return [];

  // A trip that somebody was called back for once does not call again.
  const calledFor = earlier.filter((r) => r.what === RETURN_WORDS.high_pressure_trip).map((r) => r.openedOn);
  const since = [...cleanings.filter((d) => d < on), ...calledFor].sort().at(-1) ?? '';
  const tripped = trips.some((t) => t > since && t <= on);
  const ids: string[] = [];
  for (const { what, note, dueOn } of returnVisits(on, findings, tripped, withinDays)) {
    if (onFile.some((r) => r.what === what && (r.visitId === visitId || (r.open && r.openedOn >= on)))) continue;
    const made = await tx.followUp.create({
      data: { unitId, visitId, what, note, urgency: 'soon', dueOn: fromLocalDate(dueOn), createdById: by, createdAt: now },
      select: { id: true },
    });
    ids.push(made.id);
  }
  return ids;
}

/** What has to be looked at before what these words asked for is met. */
const aspectOf = (what: string): string | undefined =>
  RETURN_CAUSES.filter((cause) => RETURN_WORDS[cause] === what).map((cause) => RETURN_LOOKS_AT[cause])[0];

/** What of a unit that was reached was looked at. */
async function lookedAt(tx: Tx, visitId: string, unitId: string): Promise<Set<string>> {
  const missed = await tx.unitVisit.count({ where: { visitId, unitId, outcome: { not: 'seen' } } });
  if (missed > 0) return new Set();
  const where = { visitId, unitId, grade: { not: null }, supersededAt: null };
  return new Set((await tx.finding.findMany({ where, select: { aspect: true } })).map((f) => f.aspect));
}

async function settleMet(tx: Tx, earlier: readonly ReturnOnFile[], { on, by, now }: Asked): Promise<void> {
  await tx.followUp.updateMany({
    where: { id: { in: earlier.map((r) => r.id) }, status: 'open' },
    data: { status: 'done', resolvedAt: now, resolvedById: by, resolvedNote: `Seen at the visit of ${dayInWords(on)}.` },
  });
}
