import { z } from 'zod';
import type { CompressorMap } from '../../core/condenser/compressor/ten-coefficient';
import type { WeeklyWindow } from '../../core/visits/service-hours';
import { stored, storedList } from './stored';

const WEEKDAYS = [0, 1, 2, 3, 4, 5, 6] as const;

/** Hours of a week: of a person's shifts, or those in which a kitchen spares its equipment. */
export const STORED_HOURS = storedList<WeeklyWindow>(
  'hours of a week',
  1,
  z.object({ weekday: z.literal(WEEKDAYS), from: z.string(), to: z.string() }),
);

const n = z.number();
const ten = z.tuple([n, n, n, n, n, n, n, n, n, n]);
export const STORED_COMPRESSOR_MAP = stored<CompressorMap>(
  'compressor map',
  1,
  z.object({ massFlow: ten, power: ten, units: z.enum(['F_lb_per_h', 'C_kg_per_s']), ratedSuperheatK: n }),
);

/** What the shop has set of its policy. `readPolicy` fills it up, and lets one damaged value fall back alone. */
export const STORED_POLICY = stored<Record<string, unknown>>('policy', 1, z.record(z.string(), z.unknown()));
