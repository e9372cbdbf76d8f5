import { z } from 'zod';
import type { CleaningWorth } from '../../core/evidence';
import type { Replay } from '../../core/owner/replay';
import { stored } from './stored';

const sum = z.looseObject({ cleanings: z.number(), hours: z.number(), breakdowns: z.number(), comebacks: z.number(), money: z.number() });
const figure = z.looseObject({ value: z.number(), lo: z.number(), hi: z.number(), level: z.literal(0.8) });

export type ReplayOnFile = { replay: Replay | null; sampled: number; currency: string; from: string; to: string; calendarWeeks: number };

/** The shop's own year beside a calendar plan, as it was worked out in the night. */
export const STORED_REPLAY = stored<ReplayOnFile>(
  'the plan beside the calendar',
  1,
  z.looseObject({
    replay: z
      .looseObject({
        coils: z.number(), days: z.number(), plan: sum, calendar: sum,
        spared: z.looseObject({ breakdowns: figure, comebacks: figure, money: figure, hours: z.number() }),
      })
      .nullable(),
    sampled: z.number(),
    currency: z.string(),
    from: z.string(),
    to: z.string(),
    calendarWeeks: z.number(),
  }),
); // prettier-ignore

/** What cleaning the coils that come due buys, with what it was reckoned from: of other prices it says nothing. */
export type WorthOnFile = { worth: CleaningWorth | null; unseen: number; more: boolean; days: number; from: string };

export const STORED_WORTH = stored<WorthOnFile>(
  'what cleaning saves',
  1,
  z.looseObject({
    worth: z
      .looseObject({
        coils: z.number(), withoutEnergy: z.number(), price: z.number(), energy: figure, breakdowns: figure, avoided: figure, saved: figure,
        verdict: z.enum(['pays', 'costs', 'open']),
      })
      .nullable(),
    unseen: z.number(),
    more: z.boolean(),
    days: z.number(),
    from: z.string(),
  }),
); // prettier-ignore
