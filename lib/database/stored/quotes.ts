import { z } from 'zod';
import { QUOTE_LINE_KINDS, type QuoteLine } from '../../core/jobs/quote';
import { stored } from './stored';

export type QuotedLine = QuoteLine & { partNumber: string };

const line: z.ZodType<QuotedLine> = z.object({
  kind: z.enum(QUOTE_LINE_KINDS),
  what: z.string(),
  partNumber: z.string(),
  quantity: z.number(),
  unit: z.string(),
  priceCents: z.int(),
  taxed: z.boolean(),
});

/** The lines of a quote. */
export const STORED_QUOTE = stored<{ lines: QuotedLine[] }>('quote', 1, z.object({ lines: z.array(line) }));
