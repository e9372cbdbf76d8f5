'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { NewCertificate, WithdrawCertificate } from '@/lib/schemas/equipment/refrigerant-book';
import { addCertificate, withdrawCertificate } from '@/lib/features/refrigerant-book/verbs/certificates';
import {
  EditPerson,
  EndSession,
  NewPerson,
  NewTimeOff,
  OwnersCode,
  PersonId,
  RemoveTimeOff,
  SetActive,
  SetPassword,
} from '@/lib/schemas/people/people';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { createPerson } from '@/lib/features/people/verbs/create-person';
import { editPerson } from '@/lib/features/people/verbs/edit-person';
import { endSession } from '@/lib/features/people/verbs/end-session';
import { setOwnersCode } from '@/lib/features/people/verbs/owners-code';
import { invite } from '@/lib/features/people/verbs/password-links';
import { resetSecondStep } from '@/lib/features/people/verbs/second-step';
import { nudge } from '@/lib/server/process/queue';
import { setActive } from '@/lib/features/people/verbs/set-active';
import { setPassword } from '@/lib/features/people/verbs/set-password';
import { addTimeOff, removeTimeOff } from '@/lib/features/people/verbs/time-off';

export const addPerson = defineFormAction('manage:people', NewPerson, async (ctx) => {
  const { userId } = await createPerson(ctx, ctx.input);
  await nudge('mail');
  redirect(`/people/${userId}`);
});

export const savePerson = defineFormAction('manage:people', EditPerson, async (ctx) => {
  await editPerson(ctx, ctx.input);
  redirect('/people');
});

export const switchPerson = defineFormAction('manage:people', SetActive, async (ctx) => {
  await setActive(ctx, ctx.input);
  refresh();
});

export const givePassword = defineFormAction('manage:people', SetPassword, async (ctx) => {
  await setPassword(ctx, ctx.input);
  refresh();
});

export const endSessions = defineFormAction('manage:people', EndSession, async (ctx) => {
  await endSession(ctx, ctx.input);
  refresh();
});

export const addLicence = defineFormAction('manage:people', NewCertificate, async (ctx) => {
  await addCertificate(ctx, ctx.input);
  refresh();
});

export const withdrawLicence = defineFormAction('manage:people', WithdrawCertificate, async (ctx) => {
  await withdrawCertificate(ctx, ctx.input.id);
  refresh();
});

export const addDaysOff = defineFormAction('manage:people', NewTimeOff, async (ctx) => {
  const found = await addTimeOff(ctx, ctx.input);
  refresh();
  return found;
});

export const removeDaysOff = defineFormAction('manage:people', RemoveTimeOff, async (ctx) => {
  await removeTimeOff(ctx, ctx.input.id);
  refresh();
});

export const sendLink = defineFormAction('manage:people', PersonId, async (ctx) => {
  await invite(ctx, ctx.input);
  await nudge('mail');
});

export const askOwners = defineFormAction('manage:people', OwnersCode, async (ctx) => {
  await setOwnersCode(ctx, ctx.input);
  refresh();
});

export const resetStep = defineFormAction('manage:people', PersonId, async (ctx) => {
  await resetSecondStep(ctx, ctx.input);
  refresh();
});
