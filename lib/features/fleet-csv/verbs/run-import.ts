import 'server-only';
import { AppError, isAppError } from '../../../core/errors';
import { writeAudit } from '../../audit/verbs/write-audit';
import { Prisma, type Db } from '../../../database/client';
import { fleetOnFile } from '../reads/fleet';
import { STORED_MADE, STORED_REPORT, type ImportReport } from '../../../database/stored/imports';
import { handedIn } from '../reads/imports';
import { lockAll } from '../../../database/lock';
import { planImport } from './plan-import';
import { rememberChoices } from './remember-choices';
import { formOf } from './read-sheets';
import { writePlan } from './write-plan';
import { writeKitchenUpdates, writeUpdates } from './write-updates';

type Context = { db: Db; actor: { userId: string }; now: Date };

/** A fleet takes seconds; this is for a slow disk. */
const PATIENCE_MS = 300_000;

/** Marks a checked import as running; the caller then runs it in the background. @throws AppError not_found | conflict */
export async function startImport({ db, now }: Context, runId: string): Promise<void> {
  const { count } = await db.importRun.updateMany({
    where: { id: runId, status: 'checked' },
    data: { status: 'running', doneRows: 0, startedAt: now },
  });
  if (count > 0) return;
  const run = await db.importRun.findUnique({ where: { id: runId }, select: { status: true } });
  if (!run) throw new AppError('not_found', 'That import is not on file.');
  throw new AppError(
    'conflict',
    run.status === 'running' ? 'This import is running already.' : 'This import was run already. Check the file again to import once more.',
  );
}

/**
 * Puts everything of a file on file in one transaction, or nothing. It is checked again first, for what others changed
 * since the dry run. How far it is can be read on the run while it works. Ends as "done" or "failed"; never throws what a person
 * could mend.
 */
export async function runImport({ db, actor, now }: Context, runId: string): Promise<void> {
  try {
    await db.$transaction(
      async (tx) => {
        await lockAll(tx, 'fleet');
        const run = await tx.importRun.findUnique({ where: { id: runId } });
        if (run?.status !== 'running') return;
        const { plan, report, reading } = await planImport(tx, handedIn(run), now);
        if (report.summary.errors + report.summary.open > 0) throw new Unfit(report);
        let done = 0;
        // Told outside the transaction, so that others can see it.
        const wrote = async (n: number) => void (await db.importRun.update({ where: { id: runId }, data: { doneRows: (done += n) } }));
        const made = await writePlan(tx, plan, now, (await fleetOnFile(tx)).tags, wrote);
        await writeUpdates(tx, plan.updates, made);
        await writeKitchenUpdates(tx, plan.kitchenUpdates, made);
        if (reading) await rememberChoices(tx, formOf(reading), handedIn(run).choices, now);
        await tx.importRun.update({
          where: { id: runId },
          data: {
            status: 'done',
            doneRows: plan.rows,
            csv: '',
            source: Prisma.DbNull,
            made: STORED_MADE.write(made),
            problems: STORED_REPORT.write(report),
            finishedAt: now,
          },
        });
        await writeAudit(tx, {
          at: now,
          userId: actor.userId,
          action: 'fleet.imported',
          entity: 'ImportRun',
          entityId: runId,
          detail: { ...report.summary },
        });
      },
      { timeout: PATIENCE_MS, maxWait: PATIENCE_MS },
    );
  } catch (e) {
    const report = e instanceof Unfit ? e.report : undefined;
    await db.importRun.updateMany({
      where: { id: runId, status: 'running' },
      data: { status: 'failed', doneRows: 0, finishedAt: now, ...(report && { problems: STORED_REPORT.write(report) }) },
    });
    if (!report && !isAppError(e)) throw e;
  }
}

class Unfit extends Error {
  constructor(readonly report: ImportReport) {
    super('the file no longer fits what is on file');
  }
}
