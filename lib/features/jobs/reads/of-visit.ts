import 'server-only';
import type { Tx } from '../../../database/client';

/** Jobs that a visit found, found again, was booked for or brought on. */
export const jobsOfVisit = (db: Tx, visitId: string) =>
  db.job.findMany({
    where: { OR: [{ foundVisitId: visitId }, { visitId }, { events: { some: { visitId } } }] },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true, number: true, what: true, state: true, units: { select: { unitId: true } } },
  });

/** Jobs that stand on a visit, or did when it closed. */
export const jobsOnVisit = (db: Tx, visitId: string) =>
  db.job.findMany({
    where: { OR: [{ visitId }, { outcomes: { some: { visitId } } }] },
    orderBy: [{ urgency: 'asc' }, { number: 'asc' }],
    select: {
      id: true,
      number: true,
      what: true,
      state: true,
      urgency: true,
      units: { select: { unit: { select: { id: true, name: true } } } },
      outcomes: { where: { visitId }, select: { outcome: true, note: true } },
    },
  });
