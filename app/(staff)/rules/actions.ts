'use server';

import { refresh } from 'next/cache';
import { AcceptChanges } from '@/lib/schemas/visits/tasks';
import { PolicyForm, policyFromForm } from '@/lib/schemas/shop/policy';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { acceptChanges } from '@/lib/features/intervals/verbs/accept-changes';
import { setPolicy } from '@/lib/features/intervals/verbs/set-policy';
import { presentRules } from '@/lib/features/intervals/verbs/present-rules';
import { whatIf } from '@/lib/features/intervals/verbs/what-if';

/** Shows what a policy would move; with the intent to save, keeps it. */
export const askPolicy = defineFormAction('overrule:rules', PolicyForm, async (ctx) => {
  const rules = policyFromForm(await presentRules(ctx), ctx.input);
  if (ctx.input.intent === 'save') {
    await setPolicy(ctx, rules, ctx.input.seen);
    refresh();
    return { saved: true, answer: null };
  }
  return { saved: false, answer: await whatIf(ctx, rules) };
});

/** Keeps a group of changes at once. */
export const acceptGroup = defineFormAction('overrule:rules', AcceptChanges, async (ctx) => {
  const kept = await acceptChanges(ctx, ctx.input);
  refresh();
  return { kept };
});
