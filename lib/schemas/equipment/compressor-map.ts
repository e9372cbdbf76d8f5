import { z } from 'zod';
import { longText } from '../values/text';
import type { CompressorMap, TenCoefficients } from '../../core/condenser/compressor/ten-coefficient';

/** Ten numbers in the order of AHRI 540, separated by spaces, commas or lines. */
function ten(text: string | undefined): TenCoefficients | string | null {
  const pieces = (text ?? '').split(/[\s,;]+/).filter(Boolean);
  if (pieces.length === 0) return null;
  if (pieces.length !== 10) return `Ten numbers are wanted; here are ${pieces.length}.`;
  const numbers = pieces.map(Number);
  const bad = pieces[numbers.findIndex((n) => !Number.isFinite(n))];
  return bad === undefined ? (numbers as unknown as TenCoefficients) : `“${bad}” is not a number.`;
}

/** The maker's map of the compressor; null when none is on file. */
export const CompressorMapEntry = z
  .object({
    massFlow: longText().optional(),
    power: longText().optional(),
    units: z.enum(['F_lb_per_h', 'C_kg_per_s']).optional().default('F_lb_per_h'),
    ratedSuperheatK: z.number({ error: 'Write a number.' }).min(0, 'At least 0.').max(60, 'At most 60.').optional(),
  })
  .optional()
  .transform((entry, ctx): CompressorMap | null => {
    const massFlow = ten(entry?.massFlow);
    const power = ten(entry?.power);
    const say = (path: 'massFlow' | 'power', message: string) => ctx.addIssue({ code: 'custom', path: [path], message });
    if (typeof massFlow === 'string') say('massFlow', massFlow);
    if (typeof power === 'string') say('power', power);
    if (massFlow === null && power !== null) say('massFlow', 'A map has both: mass flow and power.');
    if (power === null && massFlow !== null) say('power', 'A map has both: mass flow and power.');
    if (!entry || massFlow === null || power === null || typeof massFlow === 'string' || typeof power === 'string') return null;
    return { massFlow, power, units: entry.units, ratedSuperheatK: entry.ratedSuperheatK ?? 11.1 };
  });
