'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { MakePage, RevokePage } from '@/lib/schemas/customers/customer-pages';
import { Archive, EditCustomer, NewCustomer, Restore, SetSending } from '@/lib/schemas/customers/customers';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { makePage, revokePage } from '@/lib/features/customer-pages/verbs/make-page';
import { archiveCustomer, restoreCustomer } from '@/lib/features/customers/verbs/archive-customer';
import { createCustomer } from '@/lib/features/customers/verbs/create-customer';
import { editCustomer } from '@/lib/features/customers/verbs/edit-customer';
import { setSending } from '@/lib/features/customers/verbs/set-sending';
import { nudge } from '@/lib/server/process/queue';

export const addCustomer = defineFormAction('write:equipment', NewCustomer, async (ctx) => {
  const { customerId } = await createCustomer(ctx, ctx.input);
  redirect(`/customers/${customerId}`);
});

export const saveCustomer = defineFormAction('write:equipment', EditCustomer, async (ctx) => {
  await editCustomer(ctx, ctx.input);
  redirect(`/customers/${ctx.input.id}`);
});

export const takeCustomerOff = defineFormAction('write:equipment', Archive, async (ctx) => {
  await archiveCustomer(ctx, ctx.input);
  redirect(`/customers/${ctx.input.id}`);
});

export const putCustomerBack = defineFormAction('write:equipment', Restore, async (ctx) => {
  await restoreCustomer(ctx, ctx.input);
  redirect(`/customers/${ctx.input.id}`);
});

/** What goes out without a look is the owner's to say. */
export const saveSending = defineFormAction('manage:shop', SetSending, async (ctx) => {
  await setSending(ctx, ctx.input);
  refresh();
});

export const makeTheirPage = defineFormAction('write:equipment', MakePage, async (ctx) => {
  const made = await makePage(ctx, ctx.input);
  await nudge('mail');
  refresh();
  return made;
});

export const takePageBack = defineFormAction('write:equipment', RevokePage, async (ctx) => {
  await revokePage(ctx, ctx.input);
  refresh();
});
