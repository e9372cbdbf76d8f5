import { z } from 'zod';
import { PRECISIONS, type Candidate } from '../../core/position/candidates';
import { storedList } from './stored';

export const STORED_CANDIDATES = storedList<Candidate>(
  'places an address may mean',
  1,
  z.object({
    lat: z.number(),
    lng: z.number(),
    label: z.string(),
    precision: z.enum(PRECISIONS),
    houseNumber: z.string(),
    withinM: z.number().nullable(),
  }),
);
