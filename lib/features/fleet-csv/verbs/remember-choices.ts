import 'server-only';
import { forTheNext, type SheetChoices } from '../../../core/sheet';
import type { Tx } from '../../../database/client';
import { STORED_CHOICES } from '../../../database/stored/imports';

/** Keeps what was decided about sheets of one form for the next of that form. */
export async function rememberChoices(tx: Tx, form: string, choices: SheetChoices, usedAt: Date): Promise<void> {
  const kept = { choices: STORED_CHOICES.write(forTheNext(choices)), usedAt };
  await tx.sheetMemory.upsert({ where: { form }, create: { form, ...kept }, update: kept });
}
