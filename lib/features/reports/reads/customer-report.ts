import 'server-only';
import type { Language } from '../../../core/customer-words';
import { toLocalDate } from '../../../core/calendar/date-column';
import { isOpen } from '../../../core/jobs';
import { customersUnits } from '../../shop/reads/shop';
import { visitForCustomer, type CustomerReport, type ShopOnReport } from '../../../core/reports/visit-for-customer';
import type { Tx } from '../../../database/client';
import { visitReport } from '../../visits/reads/visit-report';

export type ReportOnFile = {
  report: CustomerReport;
  shop: ShopOnReport;
  customer: { id: string; name: string; email: string; language: Language };
  visit: { id: string; kitchen: string; closed: boolean };
};

/** What a customer gets in hand after this visit, in the customer's language or another. Null when it is not on file. */
export async function customerReport(db: Tx, visitId: string, language?: Language): Promise<ReportOnFile | null> {
  const visit = await visitReport(db, visitId);
  if (!visit) return null;
  const [units, customer, shop, tasks, jobs] = await Promise.all([
    customersUnits(db),
    db.customer.findUniqueOrThrow({ where: { id: visit.kitchen.customer.id } }),
    shopOnReport(db),
    db.task.findMany({
      where: { active: true, unitId: { in: visit.units.map((u) => u.id) }, unit: { archivedAt: null } },
      orderBy: [{ dueOn: 'asc' }, { id: 'asc' }],
      include: { kind: { select: { label: true } }, changes: { where: { visitId, kind: { not: 'held' } }, orderBy: { at: 'asc' } } },
    }),
    db.job.findMany({
      where: { OR: [{ foundVisitId: visitId }, { visitId }, { events: { some: { visitId } } }] },
      orderBy: [{ urgency: 'asc' }, { createdAt: 'asc' }, { id: 'asc' }],
      include: { units: { include: { unit: { select: { name: true } } } } },
    }),
  ]);
  const tongue = language ?? customer.language;
  const around = {
    shop: shop.name,
    next: tasks.map((t) => ({
      unitId: t.unitId,
      kind: t.kindKey,
      task: t.kind.label,
      dueOn: toLocalDate(t.dueOn),
      rule: t.rule,
      ruleBefore: t.changes[0]?.fromRule ?? null,
    })),
    jobs: jobs
      .filter((j) => isOpen(j.state))
      .map((j) => ({ unitNames: j.units.map((u) => u.unit.name), what: j.what, urgency: j.urgency })),
  };
  return {
    report: visitForCustomer(visit, around, tongue, units),
    shop,
    customer: { id: customer.id, name: customer.name, email: customer.email, language: tongue },
    visit: { id: visit.id, kitchen: visit.kitchen.name, closed: visit.status === 'done' },
  };
}

/** Who stands at head and foot of what a customer gets in hand. */
export async function shopOnReport(db: Tx): Promise<ShopOnReport> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 } });
  return {
    name: shop?.name ?? '',
    phone: shop?.phone ?? '',
    email: shop?.email ?? '',
    footer: shop?.reportWords ?? '',
    logo: shop?.logoPng ? Buffer.from(shop.logoPng).toString('base64') : null,
  };
}

/** What was sent of a visit, the newest first. */
export const reportsSent = (db: Tx, visitId: string) =>
  db.reportSent.findMany({ where: { visitId }, omit: { tokenHash: true }, orderBy: { createdAt: 'desc' } });

/** Under what the pictures of a visit are kept, for the paper: by id of their file. */
export const picturesOf = (db: Tx, ids: string[]) =>
  db.storedFile.findMany({ where: { id: { in: ids } }, select: { id: true, content: true } });
