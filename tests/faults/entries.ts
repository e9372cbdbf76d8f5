import { ASPECTS, GRADES, type Grade } from '@/lib/core/findings/grades';
import { JOB_OUTCOMES } from '@/lib/core/entries/entries';
import { PART_PLACES } from '@/lib/core/parts';
import { ENTERED_EVENTS, unplannedTasks, URGENCIES, type EntryKind, type Payloads, type VisitOnFile } from '@/lib/core/tablet';
import type { Random } from './random';

export type Made = { [K in EntryKind]: { visitId: string; kind: K; payload: Payloads[K] } }[EntryKind];

const WEIGHTS = {
  'visit.start': 3,
  'finding.set': 30,
  'reading.add': 14,
  'unit.outcome': 4,
  'unit.add': 2,
  'task.take': 4,
  'task.done': 10,
  'task.not_done': 4,
  'part.use': 5,
  'follow_up.add': 4,
  'food_warning.add': 2,
  'event.add': 3,
  'signature.set': 3,
  'job.outcome': 7,
  'sealed.step': 9,
  'entry.strike': 3,
} as const;

/** How every follow-up that a technician wishes for begins here. */
export const WISHED = 'See to it';

/** An entry as a technician might make it next, from what the tablet shows. */
export function someEntry(random: Random, visit: VisitOnFile, now: () => number): Made {
  const visitId = visit.id;
  const unitId = random.pick(visit.units).id;
  const at = new Date(now()).toISOString();
  const made = <K extends EntryKind>(kind: K, payload: Payloads[K]) => ({ visitId, kind, payload }) as Made;
  const kind = random.weighted(WEIGHTS);
  switch (kind) {
    case 'visit.start':
      return made(kind, { arrivedAt: at });
    case 'finding.set': {
      const aspect = random.pick(ASPECTS);
      const phase = random.chance(0.8) ? ('found' as const) : ('left' as const);
      const grade = random.chance(0.85) ? random.pick(GRADES[aspect] as readonly { grade: Grade }[]).grade : null;
      const standing = visit.entries.findings.find((f) => f.unitId === unitId && f.aspect === aspect && f.phase === phase);
      return made(kind, {
        unitId,
        aspect,
        phase,
        grade,
        notLookedWhy: grade === null ? 'riveted shut' : '',
        note: '',
        replaces: standing?.id ?? null,
      });
    }
    case 'reading.add': {
      const phase = random.chance(0.6) ? ('before' as const) : ('after' as const);
      const standing = visit.entries.readings.find((r) => r.unitId === unitId && r.phase === phase);
      const values = { headPaGauge: 700_000 + random.whole(900_000), airInK: 290 + random.whole(20), steadyMinutes: 12 };
      return made(kind, {
        unitId,
        phase,
        values,
        gaugeGrade: '1A',
        gaugeSpanPa: 3_447_379,
        entered: { airInK: { text: '86', unit: '°F' } },
        questioned: [],
        replaces: standing?.id ?? null,
      });
    }
    case 'unit.outcome':
      return made(
        kind,
        random.chance(0.5) ? { unitId, outcome: 'could_not_reach', reason: 'locked' } : { unitId, outcome: 'seen', reason: '' },
      );
    case 'unit.add':
      return made(kind, {
        unitId: crypto.randomUUID(),
        taskIds: { coil_cleaning: crypto.randomUUID(), drain_inspection: crypto.randomUUID(), evaporator_inspection: crypto.randomUUID() },
        ...(random.chance(0.3) ? { replacesId: unitId } : {}),
        name: `Found ${random.whole(1000)}`,
        kind: 'reach_in',
        make: '',
        model: '',
        serial: '',
        refrigerant: 'R134a',
        chargeKg: null,
        application: 'medium',
        expansion: 'capillary',
        circuitAccess: 'sealed',
        condenserKind: 'fin_and_tube',
        placement: 'line',
        notes: '',
      });
    case 'task.take': {
      const free = visit.units.flatMap((u) => unplannedTasks(visit, u).map((t) => ({ taskId: t.taskId, unitId: u.id })));
      const task = random.pick([...free, null]);
      return task ? made(kind, task) : made('part.use', { unitId: null, what: 'brush', quantity: 1 });
    }
    case 'task.done':
    case 'task.not_done': {
      const task = random.pick(visit.tasks);
      return kind === 'task.done' ? made(kind, { taskId: task.taskId }) : made(kind, { taskId: task.taskId, reason: 'no time' });
    }
    case 'part.use':
      return made(kind, {
        unitId: random.chance(0.5) ? unitId : null,
        ...(random.chance(0.5) ? { partId: PART_ON_LIST, place: random.pick(PART_PLACES) } : {}),
        what: random.chance(0.4) ? 'drain pan tablet' : `filter ${random.whole(100)}`,
        quantity: 1 + random.whole(2),
      });
    case 'follow_up.add':
      return made(kind, { unitId, what: `${WISHED} ${random.whole(1000)}`, urgency: random.pick(URGENCIES), note: '' });
    case 'job.outcome': {
      // Now and then of a job that is not on file, which the office must refuse.
      const job = random.pick(visit.jobs ?? []);
      return made(kind, {
        jobId: random.chance(0.95) && job ? job.id : crypto.randomUUID(),
        outcome: random.pick(JOB_OUTCOMES),
        note: `said ${random.whole(100)}`,
      });
    }
    case 'food_warning.add':
      return made(kind, { unitId, boxK: 281, toldTo: 'the cook', toldAt: at, note: '' });
    case 'event.add':
      return made(kind, { unitId, kind: random.pick(ENTERED_EVENTS), at, note: 'said so', cause: null });
    case 'signature.set':
      return made(
        kind,
        random.chance(0.5) ? { nobodyThere: true, signedBy: '', png: null } : { nobodyThere: false, signedBy: 'the cook', png: ONE_PIXEL },
      );
    case 'sealed.step': {
      const before = visit.units.find((u) => u.id === unitId)?.openSealed;
      const recordId = (visit.entries.sealed ?? []).find((s) => s.unitId === unitId)?.recordId ?? before?.recordId ?? crypto.randomUUID();
      return made(kind, { recordId, unitId, ...someStep(random) });
    }
    case 'entry.strike': {
      const entry = random.pick([...visit.entries.parts, null]);
      if (!entry) return made('part.use', { unitId: null, what: 'brush', quantity: 1 });
      return made(kind, { what: 'part', entryId: entry.id, why: 'slip' });
    }
  }
}

export const CYLINDER = '00000000-0000-4000-8000-00000000c71d';
export const PART_ON_LIST = '00000000-0000-4000-8000-00000000fa27';
export const CERTIFICATE = '00000000-0000-4000-8000-00000000ce27';

/** A step of a repair record: weighed, only written, left out, or one that the office must refuse. */
function someStep(random: Random): Omit<Payloads['sealed.step'], 'recordId' | 'unitId'> {
  const rest = { skippedWhy: '', certificateId: CERTIFICATE, overruledBy: '', overruledWhy: '', note: '' };
  const grams = (1 + random.whole(400)) / 1000;
  const weighed = { cylinderId: random.chance(0.9) ? CYLINDER : null, startKg: 12, endKg: 12 + grams };
  const cylinderWords = weighed.cylinderId ? '' : 'the grey one';
  return random.pick([
    () => ({ ...rest, step: 'open' as const, work: { step: 'open' as const, how: `cut ${random.whole(99)}` } }),
    () => ({ ...rest, step: 'open' as const, work: null, skippedWhy: 'valves' }),
    () => ({
      ...rest,
      step: 'recover' as const,
      work: { step: 'recover' as const, ...weighed, cylinderWords, levelPaGauge: null, recoveredFor: 'reuse' as const },
    }),
    () => ({
      ...rest,
      step: 'charge' as const,
      work: { step: 'charge' as const, ...weighed, endKg: 12 - grams, cylinderWords, plateKg: 0.2, targetKg: 0.21, band: null },
    }),
    () => ({
      ...rest,
      certificateId: null,
      overruledBy: 'the owner',
      overruledWhy: 'card at home',
      step: 'drier' as const,
      work: null,
      skippedWhy: 'none fitted',
    }),
    () => ({ ...rest, certificateId: null, step: 'open' as const, work: { step: 'open' as const, how: 'without a certificate' } }),
  ])();
}

const ONE_PIXEL = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';

const ARRIVED_AND_LEFT = [
  ['found', 'furred'],
  ['left', 'bare'],
] as const;

/** Everything a visit still needs before it can be closed, and the closing. */
export function closingEntries(visit: VisitOnFile, now: () => number): Made[] {
  const visitId = visit.id;
  const at = new Date(now()).toISOString();
  const entries: Made[] = [{ visitId, kind: 'visit.start', payload: { arrivedAt: at } }];
  for (const unitId of new Set(visit.tasks.map((t) => t.unitId)))
    for (const [aspect, grade] of [
      ['ice', 'dry'],
      ['drain', 'runs'],
    ] as const) {
      const standing = visit.entries.findings.find((f) => f.unitId === unitId && f.aspect === aspect && f.phase === 'found');
      if (!standing)
        entries.push({
          visitId,
          kind: 'finding.set',
          payload: { unitId, aspect, phase: 'found', grade, notLookedWhy: '', note: '', replaces: null },
        });
    }
  for (const { unitId } of visit.tasks.filter((t) => t.kindKey === 'coil_cleaning'))
    for (const [phase, grade] of ARRIVED_AND_LEFT) {
      const standing = visit.entries.findings.find((f) => f.unitId === unitId && f.aspect === 'coil' && f.phase === phase);
      if (!standing?.grade)
        entries.push({
          visitId,
          kind: 'finding.set',
          payload: { unitId, aspect: 'coil', phase, grade, notLookedWhy: '', note: '', replaces: standing?.id ?? null },
        });
    }
  for (const t of visit.tasks) if (t.outcome === 'planned') entries.push({ visitId, kind: 'task.done', payload: { taskId: t.taskId } });
  entries.push({ visitId, kind: 'signature.set', payload: { nobodyThere: true, signedBy: '', png: null } });
  entries.push({ visitId, kind: 'visit.close', payload: { leftAt: at, taskIds: visit.tasks.map((t) => t.taskId) } });
  return entries;
}
