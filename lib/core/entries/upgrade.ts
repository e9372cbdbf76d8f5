import { ENTRY_VERSION, type Entry, type EntryKind } from './entries';

type Json = Record<string, unknown>;
const BOTH_FANS = 'Graded as “Fans”, before the condenser’s and the evaporator’s were told apart.';

function asCondenserFan(p: Json): Json {
  if (p.aspect !== 'fan') return p;
  const unsure = p.grade === 'worn' || p.grade === 'failed';
  return { ...p, aspect: 'condenser_fan', ...(unsure ? { note: [p.note, BOTH_FANS].filter(Boolean).join(' ') } : {}) };
}

/** From one version to the next, for the kinds whose shape changed. */
const STEPS: Record<number, Partial<Record<EntryKind, (payload: Json) => Json>>> = {
  // Version 1 had no "left as": a finding was what was met on arrival. And it did not say which entry it meant to replace.
  1: {
    'finding.set': (p) => ({ phase: 'found', replaces: null, ...p }),
    'reading.add': (p) => ({ replaces: null, questioned: [], ...p }),
    'visit.close': (p) => ({ taskIds: [], ...p }),
  },
  // Version 2 graded both fans as one, and it was read as the condenser's.
  2: { 'finding.set': asCondenserFan, 'photo.attach': asCondenserFan },
  // Version 4 knew work on a sealed circuit, which no older one did; it did not ask what was behind a trip.
  3: {},
  4: { 'event.add': (p) => ({ cause: null, ...p }) },
  // Version 6 can name a part of the shop’s list, which no older one did.
  5: {},
};

/** A payload brought from its version to today's, step by step. Anything but an object is left for the schema to refuse. */
export function upgraded(kind: EntryKind, version: number, payload: unknown): unknown {
  if (typeof payload !== 'object' || payload === null || Array.isArray(payload)) return payload;
  let current = payload as Json;
  for (let v = version; STEPS[v]; v++) current = STEPS[v]?.[kind]?.(current) ?? current;
  return current;
}

/** An entry of an older version that still waits on a tablet, as today's screens read it. What is sent stays as it was written. */
export function upgradedEntry(entry: Entry): Entry {
  return entry.version >= ENTRY_VERSION
    ? entry
    : ({ ...entry, version: ENTRY_VERSION, payload: upgraded(entry.kind, entry.version, entry.payload) } as Entry);
}
