'use server';

import { refresh } from 'next/cache';
import { ReviseVisit } from '@/lib/schemas/visits/visits';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { reviseVisit } from '@/lib/features/visits/verbs/revise-visit';

/** Does again what closing the visit should have done. */
export const reviseAgain = defineFormAction('write:rules', ReviseVisit, async (ctx) => {
  await reviseVisit(ctx, ctx.input.visitId);
  refresh();
});
