import { z } from 'zod';
import { FILLERS, RECOVERED_FOR, TUBE_LINES, TUBE_SIZES, type SealedWork } from '../../core/sealed';
import { stored } from './stored';

// Shapes alone: what a step may say is judged when it is taken in, and a record stays readable when those bounds change.
const n = z.number();
const orNull = n.nullable();
const weighed = { cylinderId: z.string().nullable(), cylinderWords: z.string(), startKg: n, endKg: n };
const at = z.object({ at: z.string(), paGauge: n, temperatureK: n });
const flammable = z.object({ ventilated: z.boolean(), detector: z.boolean(), noIgnition: z.boolean(), roomM2: orNull });
const size = z.enum(TUBE_SIZES).nullable();
const tube = z.object({ line: z.enum(TUBE_LINES), before: size, now: size, lengthM: n });

/** What was done at a step of a repair record. */
export const STORED_SEALED_WORK = stored<SealedWork>(
  'work on a sealed circuit',
  1,
  z.discriminatedUnion('step', [
    z.object({ step: z.literal('isolate'), provenDead: z.boolean(), flammable: flammable.nullable() }),
    z.object({ step: z.literal('recover'), levelPaGauge: orNull, recoveredFor: z.enum(RECOVERED_FOR), ...weighed }),
    z.object({ step: z.literal('open'), how: z.string() }),
    z.object({
      step: z.literal('braze'),
      joints: z.array(z.object({ joint: z.enum(FILLERS), count: n })),
      nitrogen: z.boolean(),
      wetRag: z.boolean(),
      fireWatchMinutes: n,
    }),
    z.object({
      step: z.literal('drier'),
      drier: z.string(),
      drierBeforeM3: orNull,
      drierNowM3: orNull,
      condenserBeforeM3: orNull,
      condenserNowM3: orNull,
      capillary: z.object({ boreM: n, lengthM: n }).nullable(),
      tubes: z.array(tube),
    }),
    z.object({ step: z.literal('pressure_test'), platePaGauge: orNull, gaugeDivisionPa: n, start: at, end: at }),
    z.object({ step: z.literal('evacuate'), limitMicrons: n, readings: z.array(z.object({ minutes: n, microns: n })) }),
    z.object({ step: z.literal('charge'), plateKg: orNull, targetKg: orNull, band: z.tuple([n, n]).nullable(), ...weighed }),
    z.object({ step: z.literal('running_check'), readingId: z.string(), minutes: n }),
  ]),
);
