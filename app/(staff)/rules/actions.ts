'use server';

import { refresh } from 'next/cache';
import { PolicyForm, rulesFromForm } from '@/lib/schemas/policy-form';
import { defineFormAction } from '@/lib/server/define-action';
import { setPolicy } from '@/lib/services/rules/set-policy';
import { presentRules } from '@/lib/services/rules/present-rules';
import { whatIf } from '@/lib/services/rules/what-if';

/** Shows what a policy would move; with the intent to save, keeps it. */
export const askPolicy = defineFormAction('overrule:rules', PolicyForm, async (ctx) => {
  const rules = rulesFromForm(await presentRules(ctx), ctx.input);
  if (ctx.input.intent === 'save') {
    await setPolicy(ctx, rules, ctx.input.seen);
    refresh();
    return { saved: true, answer: null };
  }
  return { saved: false, answer: await whatIf(ctx, rules) };
});
