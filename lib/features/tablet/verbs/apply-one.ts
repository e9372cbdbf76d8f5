import 'server-only';
import { STORED_ENTRY_DETAIL } from '../../../database/stored/records';
import { isAppError } from '../../../core/errors';
import type { Entry, EntryKind, EntryResult, Outcome } from '../../../core/tablet';
import type { Prisma, Tx } from '../../../database/client';
import { attempt } from '../../../database/savepoint';
import type { EntryEnvelope } from '../../../schemas/tablet/entries';
import type { ApplyContext, Handler } from './context';
import { HANDLERS } from './handlers';
import { isRefusal, isSlip } from './is-refusal';
import { officeTime } from './office-time';
import { readEntry } from './read-entry';
import type { VisitDesk } from './visit-desk';

export type Maker = { userId: string; name: string };
export type FiledEntry = Prisma.EntryCreateManyInput;

const twinOf = (same: { twin?: string } | null): string | undefined => same?.twin;

/** What a tablet is told of an entry on file: a question that is the office's alone is none of the tablet's. */
export function answerTo(filed: { id: string; outcome: Outcome; detail?: unknown }): EntryResult {
  const { note = '', forTablet } = STORED_ENTRY_DETAIL.readOrNull(filed.detail) ?? {};
  if (forTablet === undefined) return { id: filed.id, outcome: filed.outcome, note };
  return { id: filed.id, outcome: forTablet ? 'conflict' : 'applied', note: forTablet };
}

/** Why the office asks, and what of that the tablet hears; `twin` is the entry that says the same. */
function filedDetail(notes: readonly string[], chores: readonly string[], twin: string | undefined) {
  return {
    note: [...notes, ...chores].join(' '),
    ...(chores.length > 0 ? { forTablet: notes.join(' ') } : {}),
    ...(twin ? { same: twin } : {}),
  };
}

const refusalWords = (refused: unknown): string =>
  isAppError(refused) ? refused.message : 'The office could not file this entry. It is kept as you wrote it.';

/** These change what the next entry must know of the visit. */
const CHANGES_VISIT: ReadonlySet<EntryKind> = new Set(['visit.start', 'visit.close', 'signature.set']);

/**
 * Applies one entry inside the caller's transaction and says how to file it. What cannot be applied is filed as
 * rejected, with its payload word for word: nothing a person typed is dropped.
 * `slip` is a defect of ours that the entry brought out.
 * @throws anything unexpected, with the entry's own changes undone
 */
export async function applyOne(
  db: Tx,
  maker: Maker,
  deviceId: string,
  desk: VisitDesk,
  envelope: EntryEnvelope,
  now: Date,
): Promise<{ result: EntryResult; row: FiledEntry; slip: unknown }> {
  const { at, correctedBy } = officeTime(envelope, now);
  const notes: string[] = [];
  const chores: string[] = [];
  let same: { twin?: string } | null = null;
  const refused = await attempt(db, async () => {
    const entry = readEntry(envelope);
    const { visit, notes: first } = await desk.visit(entry.visitId);
    notes.push(...first);
    const ctx: ApplyContext = {
      db,
      actor: maker,
      now,
      deviceId,
      visit,
      at,
      basedOn: new Date(envelope.basedOn),
      unit: (id) => desk.unit(id),
      note: (message) => notes.push(message),
      chore: (message) => chores.push(message),
      same: (twin) => (same = twin ? { twin } : {}),
    };
    await (HANDLERS[entry.kind] as Handler<Entry['kind']>)(ctx, entry as never);
    if (visit.status === 'done' && entry.kind !== 'visit.close' && !same) chores.unshift('It came in after the visit was closed.');
    if (CHANGES_VISIT.has(entry.kind)) desk.changed(entry.visitId);
  });
  if (refused !== null && !isRefusal(refused)) throw refused;
  // What was undone gave back the lock on the visit's row too.
  if (refused !== null) desk.changed(envelope.visitId);
  const outcome: Outcome = refused !== null ? 'rejected' : notes.length + chores.length > 0 ? 'conflict' : 'applied';
  const onFile = await desk.exists(envelope.visitId);
  const row: FiledEntry = {
    id: envelope.id,
    deviceId,
    userId: maker.userId,
    deviceSeq: envelope.seq,
    kind: envelope.kind,
    version: envelope.version,
    visitId: onFile ? envelope.visitId : null,
    payload: (envelope.payload ?? null) as object,
    madeAt: new Date(envelope.madeAt),
    receivedAt: now,
    outcome,
    detail: STORED_ENTRY_DETAIL.write({
      ...(refused === null ? filedDetail(notes, chores, twinOf(same)) : { note: refusalWords(refused) }),
      ...(correctedBy ? { clockCorrectedMs: correctedBy } : {}),
      ...(onFile ? {} : { visitId: envelope.visitId }),
    }),
  };
  return { result: answerTo(row), row, slip: isSlip(refused) ? refused : null };
}
