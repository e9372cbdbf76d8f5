import 'server-only';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { STORED_CHOICES, STORED_REPORT } from '../../../database/stored/imports';
import { withinTransaction } from '../../../database/transaction';
import type { SheetChoice } from '../../../schemas/equipment/fleet-csv';
import { handedIn } from '../reads/imports';
import { planImport } from './plan-import';

/** Keeps one decision about a sheet and looks at it again. @throws AppError not_found | conflict */
export function chooseInSheet({ db, now }: { db: Db; now: Date }, { runId, ...choice }: SheetChoice): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await tx.$executeRaw`SELECT 1 FROM "ImportRun" WHERE id = ${runId}::uuid FOR UPDATE`;
    const run = await tx.importRun.findUnique({ where: { id: runId } });
    if (!run) throw new AppError('not_found', 'That import is not on file.');
    if (run.status !== 'checked') throw new AppError('conflict', 'This import was run already. Bring the sheet in again to change it.');
    const given = handedIn(run);
    const { choices } = given;
    if (choice.of === 'sheet') {
      choices.sheet = Number(choice.value);
      choices.columns = {};
    } else if (choice.of === 'column') choices.columns[Number(choice.key)] = choice.value;
    else if (choice.of === 'answer' && (choice.key === 'customer' || choice.key === 'unit') && /^\d+$/.test(choice.value)) {
      // A column that says it takes the place of what was said of the whole sheet.
      const { [choice.key]: _, ...others } = choices.answers;
      choices.answers = others;
      choices.columns[Number(choice.value)] = choice.key;
    } else if (choice.of === 'answer') choices.answers[choice.key] = choice.value;
    else choices.values[choice.of] = { ...choices.values[choice.of], [choice.key]: choice.value };
    const { plan, report, reading } = await planImport(tx, given, now);
    await tx.importRun.update({
      where: { id: runId },
      data: { choices: STORED_CHOICES.write(choices), problems: STORED_REPORT.write(report), rows: reading?.rows ?? plan.rows },
    });
  });
}
