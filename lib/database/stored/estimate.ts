import { z } from 'zod';
import { CANNOT_SAY_REASONS, CAUSES, OWN_PARTS, VERDICTS, type CleanBaseline, type Doubt, type Estimate } from '../../core/condenser/types';
import { figure } from './parts';
import { renamed, stored } from './stored';

/** A field of a reading; those of older readings may have gone since, and are only told. */
const field = z.custom<Doubt['field']>((x) => typeof x === 'string', 'not a field');
const sentences = z.array(z.string());
const doubt = z.object({ field, question: z.string(), leftOut: z.literal(true).optional() });
const cause = z.object({ id: z.enum(CAUSES), weight: z.number(), for: sentences, against: sentences, next: z.string() });
const nowAndClean = z.object({ now: figure, clean: figure }).nullable();

/** How a machine stands apart from its kind: only what was told of it. */
const own = z.partialRecord(z.enum(OWN_PARTS), z.number());

const ok = z.looseObject({
  status: z.literal('ok'),
  condensingK: figure,
  condensingDewK: figure,
  riseK: figure,
  cleanRiseK: figure,
  designRiseK: figure.extend({ repeatSd: z.number(), means: z.string(), own: own.optional() }),
  conductanceLost: figure,
  coolingLostHotDay: figure.nullable(),
  extraEnergyKwhPerDay: figure.nullable(),
  extraCostPerDay: figure.extend({ currency: z.string() }).nullable(),
  cannotKeepUp: z.boolean(),
  dischargeHotDayK: nowAndClean,
  headHotDayPaGauge: nowAndClean,
  cutoutAirK: nowAndClean,
  causes: z.array(cause),
  lookNext: z.array(z.object({ look: z.string(), instruction: z.string(), bits: z.number() })),
  verdict: z.enum(VERDICTS).exclude(['cannot_say']),
  sentence: z.string(),
  doubts: z.array(doubt),
  assumptions: sentences,
});

const cannotSay = z.looseObject({
  status: z.literal('cannot_say'),
  condensingK: figure.optional(),
  condensingDewK: figure.optional(),
  riseK: figure.optional(),
  reason: z.enum(CANNOT_SAY_REASONS),
  causes: z.array(cause),
  verdict: z.literal('cannot_say'),
  sentence: z.string(),
  doubts: z.array(doubt),
});

/** What a reading told, whole. */
export const STORED_ESTIMATE = stored<Estimate>('estimate', 2, z.discriminatedUnion('status', [ok, cannotSay]), {
  1: renamed(['words', 'instruction']),
});

/** What a unit's clean coil is believed to show. */
export const STORED_BASELINE = stored<CleanBaseline>(
  'clean baseline',
  1,
  z.looseObject({ cleanRiseK: z.number(), sdK: z.number(), readings: z.number(), means: z.string().optional(), own: own.optional() }),
);
