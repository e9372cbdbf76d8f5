import { z } from 'zod';
import { isLocalDate, type LocalDate } from '../../core/calendar';
import { PLACEMENTS } from '../../core/equipment/build';
import { BAND_LEVEL } from '../../core/condenser/types';

export const day = z.custom<LocalDate>((x) => typeof x === 'string' && isLocalDate(x), 'not a date');
export const placement = z.enum(PLACEMENTS);

/** Hundreds of numbers are looked at in one plain loop: zod's own list costs a hundred times as much. */
export const numbers = z.custom<number[]>((x) => Array.isArray(x) && x.every((n) => typeof n === 'number'), 'not a list of numbers');

export const figure = z.object({ value: z.number(), lo: z.number(), hi: z.number(), level: z.literal(BAND_LEVEL) });
export const meanSd = z.object({ mean: z.number(), sd: z.number() });
export const band = z.object({ mean: z.number(), sd: z.number(), low: z.number(), high: z.number() });
export const limit = z.object({ name: z.string(), lnK: z.number(), sd: z.number().optional() });
