'use server';

import { redirect } from 'next/navigation';
import { Archive, EditCustomer, NewCustomer, Restore } from '@/lib/schemas/customers';
import { defineFormAction } from '@/lib/server/define-action';
import { archiveCustomer, restoreCustomer } from '@/lib/features/customers/verbs/archive-customer';
import { createCustomer } from '@/lib/features/customers/verbs/create-customer';
import { editCustomer } from '@/lib/features/customers/verbs/edit-customer';

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
