import { z } from 'zod';
import { WAYS, type Comparison, type ShopCosts, type TypedFigures, type UnitFacts } from '../../core/choices';
import { stored } from './stored';

/** What was typed, what was on file, and what came of it on the day somebody decided. */
export type ChoiceFigures = { typed: TypedFigures; facts: UnitFacts; costs: ShopCosts; result: Comparison };

const amount = z.number().nullable();
const banded = z.object({ value: z.number(), lo: z.number(), hi: z.number() });
const happened = z.object({ times: z.number(), years: z.number() });
const way = z.enum(WAYS);

const typed: z.ZodType<TypedFigures> = z.object({
  coilPrice: amount, coilYears: z.number(), unitPrice: amount, unitYears: z.number(), leftYears: z.number(),
  useKwh: amount, newKwh: amount, callOut: z.number(), refrigerantPerKg: z.number(), interest: z.number(),
}); // prettier-ignore

const facts: z.ZodType<UnitFacts> = z.object({
  cleanings: happened,
  callOuts: happened,
  failures: happened,
  // Decisions from before minutes were counted have none.
  cleaningMinutes: banded.extend({ cleanings: z.number() }).nullable().default(null),
  fleet: z.object({ callOuts: happened, failures: happened }),
  leakKgPerYear: z.number(),
  fouling: z.object({ now: banded, clean: banded }).nullable(),
});

const parts = z.object({
  capital: z.number(), energy: z.number(), cleaning: z.number(), callOuts: z.number(), leaks: z.number(), failures: z.number(),
}); // prettier-ignore

const result: z.ZodType<Comparison> = z.object({
  ways: z.array(z.object({ way, perYear: banded, parts, cheapest: z.number(), breakEvenPrice: amount })),
  best: way,
  sure: z.number(),
  regretPerYear: z.number(),
  verdict: z.enum(['clear', 'leaning', 'cant_tell']),
});

export const STORED_CHOICE = stored<ChoiceFigures>(
  'figures of a decision',
  1,
  z.object({ typed, facts, costs: z.looseObject({ energyPerKwh: z.number(), cleaning: z.number(), failure: z.number() }), result }),
);
