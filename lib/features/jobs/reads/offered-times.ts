import 'server-only';
import { bookedMinutes, waitsFor } from '../../../core/jobs';
import { needsOf } from '../../../core/visits/needs';
import { offeredTimes, type PricedSlot } from '../../../core/visits/offered-times';
import type { Tx } from '../../../database/client';
import { unitsAt } from '../../planning/reads/squeeze';
import { freeTimes } from '../../visits/reads/free-slots';
import type { PrintedQuote } from './quotes';

const TIMES_OFFERED = 8;
/** As good as all: what is chosen need not be among the few that were shown. */
const ALL = 2000;

/** How an accepted quote goes on, as its customer is told. */
export type AfterAccepting =
  | { step: 'booked'; startsAt: Date; endsAt: Date; technician: string }
  | { step: 'choose'; times: PricedSlot[]; asked: string }
  | { step: 'part' }
  | { step: 'office' };

/** What comes next after a quote was accepted: the times offered, while its job waits for one. Null before that. */
export async function afterAccepting(db: Tx, quote: PrintedQuote, now: Date): Promise<AfterAccepting | null> {
  const { job } = quote;
  if (quote.answer !== 'accepted') return null;
  if (job.state === 'booked' && job.visit) {
    const { startsAt, endsAt, technician } = job.visit;
    return { step: 'booked', startsAt, endsAt, technician: technician.name };
  }
  const wait = job.state === 'agreed' || job.state === 'part_ordered' ? waitsFor(job) : null;
  if (wait === 'part') return { step: 'part' };
  if (wait !== 'booking') return { step: 'office' };
  const times = offeredTimes(await timesFor(db, quote, now), job.kitchen.timeZone, TIMES_OFFERED);
  return { step: 'choose', times, asked: job.timeAsked };
}

/** Every free time for the work of a quote in the next two weeks. */
export async function timesFor(db: Tx, { job, lines }: PrintedQuote, now: Date): Promise<PricedSlot[]> {
  const named = job.units.map((u) => u.unit);
  // Which unit it is nobody said: whoever comes must be able to see to any of them.
  const needs = needsOf(named.length > 0 ? named : await unitsAt(db, job.kitchenId));
  return freeTimes(db, { kitchenId: job.kitchenId, minutes: bookedMinutes(lines), needs }, now, { limit: ALL });
}
