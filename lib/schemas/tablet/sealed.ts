import { z } from 'zod';
import { readingSpan } from '../../core/entries/reading-fields';
import { FILLERS } from '../../core/sealed/steps';
import { TUBE_SIZES } from '../../core/sealed/tubing';
import { RECOVERED_FOR, TUBE_LINES, type SealedWork } from '../../core/sealed/work';
import { text } from '../values/text';

/** What a step of a repair record says, as it comes from a tablet and as it lies on file. */

const Instant = z.iso.datetime({ offset: true });
const Kg = z.number().positive().max(500);
const Gauge = z.number().min(readingSpan('headPaGauge')[0]).max(readingSpan('headPaGauge')[1]);
const Kelvin = z.number().min(200).max(400);
const VolumeM3 = z.number().positive().max(0.1).nullable();
const Minutes = z.number().min(0).max(100_000);

const weighed = {
  cylinderId: z.uuid().nullable(),
  cylinderWords: text().max(200),
  startKg: Kg,
  endKg: Kg,
};
const At = z.strictObject({ at: Instant, paGauge: Gauge, temperatureK: Kelvin });
const Tube = z.strictObject({
  line: z.enum(TUBE_LINES),
  before: z.enum(TUBE_SIZES).nullable(),
  now: z.enum(TUBE_SIZES).nullable(),
  lengthM: z.number().positive().max(200),
});

export const SealedWorkSchema = z
  .discriminatedUnion('step', [
    z.strictObject({
      step: z.literal('isolate'),
      provenDead: z.boolean(),
      flammable: z
        .strictObject({
          ventilated: z.boolean(),
          detector: z.boolean(),
          noIgnition: z.boolean(),
          roomM2: z.number().positive().max(100_000).nullable(),
        })
        .nullable(),
    }),
    z.strictObject({ step: z.literal('recover'), levelPaGauge: Gauge.nullable(), recoveredFor: z.enum(RECOVERED_FOR), ...weighed }),
    z.strictObject({ step: z.literal('open'), how: text().min(1).max(300) }),
    z.strictObject({
      step: z.literal('braze'),
      joints: z.array(z.strictObject({ joint: z.enum(FILLERS), count: z.number().int().min(1).max(99) })).max(8),
      nitrogen: z.boolean(),
      wetRag: z.boolean(),
      fireWatchMinutes: Minutes,
    }),
    z.strictObject({
      step: z.literal('drier'),
      drier: text().max(300),
      drierBeforeM3: VolumeM3,
      drierNowM3: VolumeM3,
      condenserBeforeM3: VolumeM3,
      condenserNowM3: VolumeM3,
      capillary: z.strictObject({ boreM: z.number().positive().max(0.01), lengthM: z.number().positive().max(20) }).nullable(),
      tubes: z.array(Tube).max(12),
    }),
    z.strictObject({
      step: z.literal('pressure_test'),
      platePaGauge: Gauge.nullable(),
      gaugeDivisionPa: z.number().positive().max(1e6),
      start: At,
      end: At,
    }),
    z.strictObject({
      step: z.literal('evacuate'),
      limitMicrons: z.number().positive().max(20_000),
      readings: z
        .array(z.strictObject({ minutes: Minutes, microns: z.number().positive().max(1e6) }))
        .min(2)
        .max(2000)
        .refine(
          (all) => all.every((r, i) => i === 0 || r.minutes > (all[i - 1]?.minutes ?? 0)),
          'Each reading is later than the one before.',
        ),
    }),
    z.strictObject({
      step: z.literal('charge'),
      plateKg: Kg.nullable(),
      targetKg: Kg.nullable(),
      band: z.tuple([z.number(), z.number()]).readonly().nullable(),
      ...weighed,
    }),
    z.strictObject({ step: z.literal('running_check'), readingId: z.uuid(), minutes: Minutes }),
  ])
  .refine((w) => !('startKg' in w) || (w.cylinderId !== null) !== (w.cylinderWords !== ''), 'A cylinder on file, or one named in words.')
  .refine((w) => w.step !== 'recover' || w.endKg >= w.startKg, 'A cylinder weighs more after recovering into it.')
  .refine((w) => w.step !== 'charge' || w.endKg <= w.startKg, 'A cylinder weighs less after charging from it.')
  .refine(
    (w) => w.step !== 'pressure_test' || Date.parse(w.end.at) > Date.parse(w.start.at),
    'A pressure test ends after it began.',
  ) satisfies z.ZodType<SealedWork>;
