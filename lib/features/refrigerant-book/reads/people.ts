import 'server-only';
import { TAKES_VISITS } from '../../people/reads/visiting';
import type { CertificateKind } from '../../../core/refrigerant-book';
import type { Tx } from '../../../database/client';

/** Whose vans a cylinder can ride in. */
export const technicians = (db: Tx): Promise<{ id: string; name: string }[]> =>
  db.user.findMany({ where: { active: true, ...TAKES_VISITS }, select: { id: true, name: true }, orderBy: { name: 'asc' } });

/** Certificates that work may be entered under by hand, with whose they are. */
export async function certificatesInUse(db: Tx): Promise<{ id: string; name: string; kind: CertificateKind; number: string }[]> {
  const rows = await db.certificate.findMany({
    where: { withdrawnAt: null, user: { active: true } },
    include: { user: { select: { name: true } } },
    orderBy: [{ user: { name: 'asc' } }, { createdAt: 'asc' }],
  });
  return rows.map(({ id, kind, number, user }) => ({ id, kind, number, name: user.name }));
}
