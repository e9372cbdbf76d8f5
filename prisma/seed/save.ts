import type { Prisma, PrismaClient } from '../../lib/database/generated/client';
import { inPieces } from './in-pieces';
import type { RefrigerantRows } from './simulate/refrigerant';
import { saveJobs, saveJobStories } from './save-jobs';
import type { CustomerStories } from './simulate/customer-stories';
import type { JobStories } from './simulate/job-stories';
import type { Out } from './simulate/world';

type Tx = Prisma.TransactionClient;

export type Shop = {
  settings: Prisma.ShopSettingsCreateManyInput;
  users: Prisma.UserCreateManyInput[];
  kinds: Prisma.TaskKindCreateManyInput[];
  customers: Prisma.CustomerCreateManyInput[];
  kitchens: Prisma.KitchenCreateManyInput[];
  units: Prisma.UnitCreateManyInput[];
  tasks: Prisma.TaskCreateManyInput[];
  estimates: Prisma.EstimateCreateManyInput[];
  fouling: Prisma.UnitFoulingCreateManyInput[];
  foresights: Prisma.ForesightCreateManyInput[];
  ruleChanges: Prisma.RuleChangeCreateManyInput[];
  priors: Prisma.FleetPriorCreateManyInput[];
  refrigerant: RefrigerantRows;
  stories: JobStories;
  customerStories: CustomerStories;
};

/** Writes the whole shop in one transaction: all of it or nothing. */
export async function saveShop(db: PrismaClient, shop: Shop, out: Out): Promise<void> {
  await db.$transaction(
    async (tx: Tx) => {
      await tx.shopSettings.upsert({ where: { id: 1 }, create: shop.settings, update: shop.settings });
      await tx.user.createMany({ data: shop.users });
      await tx.taskKind.createMany({ data: shop.kinds, skipDuplicates: true });
      await tx.customer.createMany({ data: shop.customers });
      await tx.kitchen.createMany({ data: shop.kitchens });
      await tx.unit.createMany({ data: shop.units });
      await inPieces(shop.tasks, (data) => tx.task.createMany({ data }));
      await inPieces(out.visits, (data) => tx.visit.createMany({ data }));
      await inPieces(out.visitTasks, (data) => tx.visitTask.createMany({ data }));
      await inPieces(out.visitEvents, (data) => tx.visitEvent.createMany({ data }));
      await inPieces(out.unitVisits, (data) => tx.unitVisit.createMany({ data }));
      await inPieces(out.findings, (data) => tx.finding.createMany({ data }));
      await inPieces(out.readings, (data) => tx.reading.createMany({ data }));
      await inPieces(out.unitEvents, (data) => tx.unitEvent.createMany({ data }));
      await saveJobs(tx, shop.units, out);
      await saveJobStories(tx, shop.stories);
      await inPieces(out.foodWarnings, (data) => tx.foodWarning.createMany({ data }));
      await inPieces(out.parts, (data) => tx.partUsed.createMany({ data }));
      await inPieces(shop.estimates, (data) => tx.estimate.createMany({ data }));
      await inPieces(shop.fouling, (data) => tx.unitFouling.createMany({ data }));
      await inPieces(shop.foresights, (data) => tx.foresight.createMany({ data }));
      await inPieces(shop.ruleChanges, (data) => tx.ruleChange.createMany({ data }));
      await tx.certificate.createMany({ data: shop.refrigerant.certificates });
      await tx.cylinder.createMany({ data: shop.refrigerant.cylinders });
      await tx.sealedRecord.createMany({ data: shop.refrigerant.sealedRecords });
      await tx.sealedStep.createMany({ data: shop.refrigerant.sealedSteps });
      await tx.cylinderEntry.createMany({ data: shop.refrigerant.cylinderEntries });
      await tx.fleetPrior.createMany({ data: shop.priors });
      await tx.reportSent.createMany({ data: shop.customerStories.reports });
      await tx.customerPage.createMany({ data: shop.customerStories.pages });
      await tx.outboxMessage.createMany({ data: shop.customerStories.letters });
    },
    { timeout: 900_000, maxWait: 10_000 },
  );
}
