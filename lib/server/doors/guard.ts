import 'server-only';
import { can, type Actor, type Permission } from '../../core/people/access';
import { asksProof, asksStep, isProven } from '../../core/people/proof';
import { AppError, isAppError } from '../../core/errors';
import type { Db } from '../../database/client';
import { ownersGiveCode } from '../../features/people/reads/people';
import { PicturesAway } from '../../database/pictures/picture-store.mjs';
import { isAway, isBusy, isFull } from '../../database/transaction';
import { now } from '../process/clock';
import { db } from '../process/db';
import { env } from '../process/env';
import { newReference, reference } from '../process/in-hand';
import { log } from '../process/log';
import { currentActor } from '../people/session';

export type Context = { db: Db; actor: Actor; now: Date; baseUrl: string };
export type PublicContext = { db: Db; actor: Actor | null; now: Date; baseUrl: string };

const NOT_PROVEN =
  'It is a while since you gave your password. Open My settings in another tab, say there that it is you, then press again; what you typed stays.';
const STEP_WANTED =
  'This shop asks its owners for a second step here. Open My settings in another tab, add it there, then press again; what you typed stays.';
/** Only an address in this app: nobody is sent on to another's. */
export function onward(to: string | undefined, otherwise: string): string {
  const here = 'http://here';
  return to?.startsWith('/') && URL.canParse(to, here) && new URL(to, here).origin === here ? to : otherwise;
}
/** Where one signs in, and comes back to `to`. */
export const signInAddress = (to: string | null) => (to && to !== '/' ? `/sign-in?to=${encodeURIComponent(to)}` : '/sign-in');
/** Where one adds a second step, and goes on to `to`. */
const stepAddress = (to: string) => `/me/second-step?to=${encodeURIComponent(to)}`;
/** Where one gives the password again, and goes on to `to`. */
export const proofAddress = (to: string) => `/me/prove?to=${encodeURIComponent(to)}`;

/** Where one is asked for what a door misses, and goes on from to `to`; null where it misses nothing that can be given. */
export function askedFirst(error: unknown, to: string): string | null {
  if (!isAppError(error)) return null;
  return error.code === 'not_proven' ? proofAddress(to) : error.code === 'step_wanted' ? stepAddress(to) : null;
}

/**
 * The one gate: every page, action and route goes through it with the permission it asks. Some ask for the
 * password again: `finish` is what follows from a page that was opened in time. What is an administrator's asks for a second step.
 */
export async function enter(permission: Permission, what: 'open' | 'finish' = 'open'): Promise<Context> {
  const actor = await currentActor();
  if (!actor) throw new AppError('not_signed_in', 'You are signed out. Sign in again.');
  if (!can(actor, permission)) throw new AppError('not_allowed', 'Your sign-in does not open this.');
  if (asksProof(permission) && !isProven(actor.provenAt, now(), what)) throw new AppError('not_proven', NOT_PROVEN);
  if (asksStep(permission) && !actor.secondStep && (await ownersGiveCode(db()))) throw new AppError('step_wanted', STEP_WANTED);
  return { db: db(), actor, now: now(), baseUrl: env().NEXTAUTH_URL };
}

/** For what anyone may open: sign-in, signed customer links, health. */
export async function enterPublic(): Promise<PublicContext> {
  return { db: db(), actor: await currentActor(), now: now(), baseUrl: env().NEXTAUTH_URL };
}

/** What a person is told: expected errors in their own words, the rest logged and kept back. */
export function explain(error: unknown): { code: string; message: string; field?: string } {
  if (isAppError(error)) return { code: error.code, message: error.message, field: error.field };
  if (isBusy(error)) {
    log.warn({ err: error }, 'busy');
    return { code: 'busy', message: 'The office is very busy right now. Nothing was changed; try again in a moment.' };
  }
  if (isFull(error)) {
    log.error({ err: error }, 'the disk of the database is full');
    return {
      code: 'full',
      message: 'The disk of the office’s server is full. Nothing was changed, and nothing on file is lost; tell whoever keeps the server.',
    };
  }
  if (isAway(error)) {
    log.error({ err: error }, 'database not reached');
    return {
      code: 'busy',
      message: 'The office’s database cannot be reached right now. Look whether it was saved, or try again in a moment.',
    };
  }
  if (error instanceof PicturesAway) {
    log.error({ err: error }, 'store of pictures not reached');
    return {
      code: 'busy',
      message: 'The place where pictures are kept cannot be reached right now. Nothing is lost; try again in a moment.',
    };
  }
  const found = reference() ?? newReference();
  log.error({ err: error, reference: found }, 'unexpected');
  return {
    code: 'unexpected',
    message: `Something went wrong here. Nothing was changed; try again. If it stays, tell the office this reference: ${found}.`,
  };
}
