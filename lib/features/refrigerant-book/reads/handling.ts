import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { CertificateOnFile, CylinderOnFile } from '../../../core/refrigerant-book';
import type { Tx } from '../../../database/client';

/** A person's certificates, those that ran out included and those withdrawn not. */
export async function certificatesOf(db: Tx, userId: string): Promise<CertificateOnFile[]> {
  const rows = await db.certificate.findMany({ where: { userId, withdrawnAt: null }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] });
  return rows.map((c) => ({ id: c.id, kind: c.kind, number: c.number, expiresOn: c.expiresOn && toLocalDate(c.expiresOn) }));
}

/** Cylinders that a person may take gas from or put it into, with the gas in each by the book, kg. */
const cylindersFor = (db: Tx, userId: string) => db.$queryRaw<CylinderOnFile[]>`
  SELECT c.id, c.label, c.refrigerant, c.contents::text AS contents, c."tareKg", c."mostKg", coalesce(c."withUserId" = ${userId}::uuid, false) AS mine,
    c."firstKg" + coalesce((SELECT sum(e.kg) FROM "CylinderEntry" e WHERE e."cylinderId" = c.id), 0) AS "bookKg"
  FROM "Cylinder" c WHERE c."goneAt" IS NULL AND (c."withUserId" IS NULL OR c."withUserId" = ${userId}::uuid) ORDER BY c.label`;

/** What a person's tablet needs to handle refrigerant without signal. */
export async function handlingOf(db: Tx, userId: string): Promise<{ certificates: CertificateOnFile[]; cylinders: CylinderOnFile[] }> {
  return { certificates: await certificatesOf(db, userId), cylinders: await cylindersFor(db, userId) };
}
