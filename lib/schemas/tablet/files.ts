import { z } from 'zod';

/** With CHUNK_BYTES each, 16 MB: what a tablet sends is shrunk and far below. */
const MOST_PIECES = 64;

export const UploadAsked = z.object({
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  pieces: z.coerce.number().int().min(1).max(MOST_PIECES),
});
export const UploadPiece = UploadAsked.extend({ index: z.coerce.number().int().min(0) }).refine(
  (p) => p.index < p.pieces,
  'No such piece.',
);
