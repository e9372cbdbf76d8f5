import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { CertificateOnFile, CylinderOnFile } from '../../../core/refrigerant-book';
import type { Tx } from '../../../database/client';

/** Gas in each cylinder by the book, kg, less what it held when it came on file. */
async function bookedKg(db: Tx, cylinderIds: readonly string[]): Promise<Map<string, number>> {
  const sums = await db.cylinderEntry.groupBy({ by: ['cylinderId'], where: { cylinderId: { in: [...cylinderIds] } }, _sum: { kg: true } });
  return new Map(sums.map((s) => [s.cylinderId, s._sum.kg ?? 0]));
}

/** A person's certificates, those that ran out included and those withdrawn not. */
export async function certificatesOf(db: Tx, userId: string): Promise<CertificateOnFile[]> {
  const rows = await db.certificate.findMany({ where: { userId, withdrawnAt: null }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] });
  return rows.map((c) => ({ id: c.id, kind: c.kind, number: c.number, expiresOn: c.expiresOn && toLocalDate(c.expiresOn) }));
}

/** What a person's tablet needs to handle refrigerant without signal. */
export async function handlingOf(db: Tx, userId: string): Promise<{ certificates: CertificateOnFile[]; cylinders: CylinderOnFile[] }> {
  const rows = await db.cylinder.findMany({
    where: { goneAt: null, OR: [{ withUserId: null }, { withUserId: userId }] },
    orderBy: [{ label: 'asc' }],
  });
  const booked = await bookedKg(
    db,
    rows.map((c) => c.id),
  );
  return {
    certificates: await certificatesOf(db, userId),
    cylinders: rows.map((c) => ({
      id: c.id,
      label: c.label,
      refrigerant: c.refrigerant,
      contents: c.contents,
      tareKg: c.tareKg,
      mostKg: c.mostKg,
      bookKg: c.firstKg + (booked.get(c.id) ?? 0),
      mine: c.withUserId === userId,
    })),
  };
}
