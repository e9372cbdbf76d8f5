import 'server-only';
import { STORED_ENTRY_DETAIL } from '../../../../database/stored/records';
import { todayIn } from '../../../../core/calendar';
import { AppError } from '../../../../core/errors';
import { strikePartUsed, writePartUsed } from '../../../parts/verbs/part-used';
import { cameMeanwhile } from '../came-meanwhile';
import { standsOver, timeNamed, type ApplyContext, type Handler } from '../context';
import { standsForAnother, twinOf } from '../twin';
import { takeBackWanted } from './follow-up-add';
import { unitOnVisit } from '../unit-on-visit';

/** Entries that stand beside one another and never replace anything. */

export const partUse: Handler<'part.use'> = async (ctx, entry) => {
  if (entry.payload.unitId) await unitOnVisit(ctx, entry.payload.unitId);
  const twin = await twinOf(ctx, entry.kind, entry.payload, async (id) => (await ctx.db.partUsed.count({ where: { id } })) > 0);
  if (twin) return ctx.same(twin);
  await writePartUsed(ctx.db, {
    used: { id: entry.id, visitId: ctx.visit.id, ...entry.payload, at: ctx.at },
    on: todayIn(ctx.visit.timeZone, ctx.at.getTime()),
    by: ctx.actor.userId,
    note: ctx.chore,
  });
};

export const foodWarningAdd: Handler<'food_warning.add'> = async (ctx, entry) => {
  await unitOnVisit(ctx, entry.payload.unitId);
  const twin = await twinOf(ctx, entry.kind, entry.payload, async (id) => (await ctx.db.foodWarning.count({ where: { id } })) > 0);
  if (twin) return ctx.same(twin);
  await ctx.db.foodWarning.create({
    data: { id: entry.id, visitId: ctx.visit.id, ...entry.payload, toldAt: timeNamed(ctx, entry.payload.toldAt) },
  });
};

export const eventAdd: Handler<'event.add'> = async (ctx, entry) => {
  await unitOnVisit(ctx, entry.payload.unitId);
  const twin = await twinOf(ctx, entry.kind, entry.payload, async (id) => (await ctx.db.unitEvent.count({ where: { id } })) > 0);
  if (twin) return ctx.same(twin);
  await ctx.db.unitEvent.create({
    data: { id: entry.id, visitId: ctx.visit.id, ...entry.payload, at: timeNamed(ctx, entry.payload.at), byUserId: ctx.actor.userId },
  });
};

export const photoAttach: Handler<'photo.attach'> = async (ctx, entry) => {
  const { bytes: _, takenAt, ...p } = entry.payload;
  if (p.unitId) await unitOnVisit(ctx, p.unitId);
  const file = await ctx.db.storedFile.findUnique({ where: { sha256: p.sha256 }, select: { id: true } });
  await ctx.db.photo.create({
    data: { id: entry.id, visitId: ctx.visit.id, ...p, takenAt: timeNamed(ctx, takenAt), byUserId: ctx.actor.userId, fileId: file?.id },
  });
};

export const signatureSet: Handler<'signature.set'> = async (ctx, entry) => {
  const { nobodyThere, signedBy, png } = entry.payload;
  const signaturePng = png === null ? null : Buffer.from(png, 'base64');
  if (signaturePng && !isPng(signaturePng)) throw new AppError('invalid', 'The signature is not a PNG picture.');
  const { signedAt, signedOn } = ctx.visit;
  const elsewhere = signedAt !== null && signedOn !== ctx.deviceId ? { at: signedAt, deviceId: signedOn } : null;
  if (elsewhere && !(await signedOver(ctx, entry.id, elsewhere, nobodyThere))) return;
  await ctx.db.visit.update({
    where: { id: ctx.visit.id },
    data: { nobodyThere, signedBy, signaturePng, signedAt: ctx.at, signedOn: ctx.deviceId },
  });
};

/** Whether the signature stands over another tablet's. A person's name is never given up for "nobody there". */
async function signedOver(ctx: ApplyContext, id: string, before: Parameters<typeof standsOver>[2], nobodyThere: boolean): Promise<boolean> {
  const { nobodyThere: nobodyBefore } = ctx.visit;
  const alike = nobodyThere === nobodyBefore;
  const wins = alike ? standsOver(ctx, id, before) : nobodyBefore;
  if (alike && nobodyThere) ctx.same();
  else if (!wins || (await cameMeanwhile(ctx, ['signature.set'])))
    ctx.note(
      alike
        ? 'The visit was signed on two tablets; the later signature stands.'
        : 'One tablet says that nobody was there, another has a signature; the signature stands.',
    );
  return wins;
}

/** PNG signature, RFC 2083 §12.11. */
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const isPng = (b: Buffer) => PNG.every((byte, i) => b[i] === byte);

/** Takes the row away; the entries of the visit keep what it said and why it was a slip. */
export const entryStrike: Handler<'entry.strike'> = async (ctx, entry) => {
  const { what, entryId } = entry.payload;
  const where = { id: entryId, visitId: ctx.visit.id };
  const { db } = ctx;
  if (await standsForAnother(ctx, entryId))
    return ctx.note('Another tablet wrote the same down, so it stays. Ask one another, and take it back there.');
  // What only said the same as another tablet's entry made no row to take away.
  const mine = await db.entry.findFirst({ where: { id: entryId, visitId: ctx.visit.id }, select: { detail: true } });
  if (STORED_ENTRY_DETAIL.readOrNull(mine?.detail)?.same) return;
  const { count } =
    what === 'part'
      ? { count: await strikePartUsed(db, where) }
      : what === 'follow_up'
        ? { count: await takeBackWanted(ctx, entryId) }
        : what === 'event'
          ? await db.unitEvent.deleteMany({ where })
          : await db.photo.deleteMany({ where });
  if (count === 0) ctx.note('The entry to be taken back was not there any more.');
};
