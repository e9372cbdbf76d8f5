import 'server-only';
import { instantOf, todayIn } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { CYLINDER_WAY_LABEL, signedKg, TOUCHES_UNIT } from '../../../core/refrigerant-book';
import { refrigerantLabel } from '../../../core/refrigerants/naming';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type {
  CylinderGone,
  CylinderPlace,
  NewCylinder,
  NewCylinderEntry,
  TakeEntryBack,
} from '../../../schemas/equipment/refrigerant-book';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { shopTimeZone } from '../../shop/reads/shop';
import { counterEntry } from './counter-entry';

type By = ServiceContext & { actor: { userId: string } };
const audit = (tx: Tx, { actor, now }: By, action: string, entityId: string, detail: object = {}) =>
  writeAudit(tx, { at: now, userId: actor.userId, action, entity: 'Cylinder', entityId, detail: { ...detail } });

/** @throws AppError conflict: the label is on another cylinder */
export function addCylinder(ctx: By, { tare, gross, most, ...c }: NewCylinder): Promise<{ id: string }> {
  return withinTransaction(ctx.db, async (tx) => {
    if (await tx.cylinder.findUnique({ where: { label: c.label } }))
      throw new AppError('conflict', `${c.label} is on file already.`, 'label');
    const { id } = await tx.cylinder.create({ data: { ...c, tareKg: tare, firstKg: gross - tare, mostKg: most, createdAt: ctx.now } });
    await audit(tx, ctx, 'cylinder.added', id, { label: c.label, firstKg: gross - tare });
    return { id };
  });
}

/** A line of the book by hand. @throws AppError not_found | invalid */
export function enterWeighing(ctx: By, input: NewCylinderEntry): Promise<void> {
  return withinTransaction(ctx.db, async (tx) => {
    const cylinder = await tx.cylinder.findUnique({ where: { id: input.cylinderId } });
    if (!cylinder) throw new AppError('not_found', 'That cylinder is not on file.');
    const at = await timeOfLine(tx, input.on, ctx.now);
    if (cylinder.goneAt && cylinder.goneAt < at)
      throw new AppError('invalid', `${cylinder.label} was gone by then: ${cylinder.goneWhy}`, 'on');
    const onUnit = TOUCHES_UNIT.has(input.way) ? await workOnUnit(tx, input, cylinder.refrigerant, ctx.actor.userId) : null;
    await tx.cylinderEntry.create({
      data: {
        cylinderId: cylinder.id,
        way: input.way,
        kg: signedKg(input.way, input.kg ?? 0),
        grossAfterKg: input.gross,
        recoveredFor: input.way === 'recovered' ? input.recoveredFor : null,
        byUserId: ctx.actor.userId,
        ...onUnit,
        at,
        note: input.note,
      },
    });
    await audit(tx, ctx, 'cylinder.weighed', cylinder.id, { way: input.way, kg: input.kg });
  });
}

/** Of today the time it is, of a day before its noon. @throws AppError invalid */
async function timeOfLine(tx: Tx, on: NewCylinderEntry['on'], now: Date): Promise<Date> {
  const zone = await shopTimeZone(tx);
  const today = todayIn(zone, now.getTime());
  if (on > today) throw new AppError('invalid', 'That day is still to come.', 'on');
  return on === today ? now : new Date(instantOf(on, '12:00', zone));
}

/** Which unit it was, and whose certificate or who answered for there being none. @throws AppError invalid */
async function workOnUnit(tx: Tx, input: NewCylinderEntry, refrigerant: string, byUserId: string) {
  const { id: unitId } = await unitByTag(tx, input.unitTag, refrigerant);
  const { certificateId, overruledBy, overruledWhy } = input;
  const certificate = certificateId ? await tx.certificate.findUnique({ where: { id: certificateId } }) : null;
  if (certificate === null && (overruledBy === '' || overruledWhy === ''))
    throw new AppError('invalid', 'Whose certificate? Or who answers for it, and why.', 'certificateId');
  return certificate
    ? { unitId, byUserId: certificate.userId, certificateId: certificate.id }
    : { unitId, byUserId, overruledBy, overruledWhy };
}

async function unitByTag(tx: Tx, tag: string, refrigerant: string): Promise<{ id: string }> {
  const unit = tag === '' ? null : await tx.unit.findUnique({ where: { tag: tag.toUpperCase() } });
  if (!unit) throw new AppError('invalid', 'Which unit? Give the tag on its label.', 'unitTag');
  if (unit.refrigerant !== refrigerant)
    throw new AppError(
      'invalid',
      `${unit.name} runs on ${refrigerantLabel(unit.refrigerant)}, the cylinder holds ${refrigerantLabel(refrigerant)}.`,
      'unitTag',
    );
  return unit;
}

/** Takes a line back by another that says why: nothing in the book is changed. @throws AppError not_found | conflict */
export function takeEntryBack(ctx: By, { entryId, why }: TakeEntryBack): Promise<void> {
  return withinTransaction(ctx.db, async (tx) => {
    const entry = await tx.cylinderEntry.findUnique({ where: { id: entryId }, include: { corrected: true } });
    if (!entry) throw new AppError('not_found', 'That line is not in the book.');
    if (entry.corrected || entry.correctsId) throw new AppError('conflict', 'That line was taken back already.');
    if (entry.way === 'scale_check') throw new AppError('invalid', 'A weighing changes nothing: weigh it again.');
    await counterEntry(tx, entry, { byUserId: ctx.actor.userId, at: ctx.now, note: why });
    await audit(tx, ctx, 'cylinder.taken_back', entry.cylinderId, { entryId, what: CYLINDER_WAY_LABEL[entry.way], why });
  });
}

/** @throws AppError not_found | conflict */
export function cylinderGone(ctx: By, { id, version, why }: CylinderGone): Promise<void> {
  return withinTransaction(ctx.db, async (tx) => {
    const { count } = await tx.cylinder.updateMany({
      where: { id, version, goneAt: null },
      data: { goneAt: ctx.now, goneWhy: why, version: { increment: 1 } },
    });
    if (count === 0) throw new AppError('conflict', 'The cylinder was changed meanwhile. Load the page again.');
    await audit(tx, ctx, 'cylinder.gone', id, { why });
  });
}

/** @throws AppError conflict */
export function placeCylinder(ctx: By, { id, version, withUserId }: CylinderPlace): Promise<void> {
  return withinTransaction(ctx.db, async (tx) => {
    const before = await tx.cylinder.findUnique({ where: { id }, select: { withUser: { select: { name: true } } } });
    const { count } = await tx.cylinder.updateMany({
      where: { id, version, goneAt: null },
      data: { withUserId, version: { increment: 1 } },
    });
    if (count === 0) throw new AppError('conflict', 'The cylinder was changed meanwhile. Load the page again.');
    const after = withUserId === null ? null : await tx.user.findUnique({ where: { id: withUserId }, select: { name: true } });
    const changed = { inVanOf: [before?.withUser?.name ?? null, after?.name ?? null] };
    await audit(tx, ctx, 'cylinder.moved', id, { withUserId, changed });
  });
}
