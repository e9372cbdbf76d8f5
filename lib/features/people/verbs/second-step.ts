import 'server-only';
import { createCipheriv, createDecipheriv, createHash, randomBytes } from 'node:crypto';
import { Secret, TOTP } from 'otpauth';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db, Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { ConfirmSecondStep, PersonId } from '../../../schemas/people/people';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

const PERIOD_S = 30;
const SPARE_CODES = 10;
const totp = (secret: string) => new TOTP({ secret: Secret.fromBase32(secret), period: PERIOD_S });

/** Sealed, so that a copy of the database alone gives no codes. `key`: 32 bytes. */
function seal(secret: string, key: Buffer): string {
  const iv = randomBytes(12);
  const cipher = createCipheriv('aes-256-gcm', key, iv);
  const body = Buffer.concat([cipher.update(secret, 'utf8'), cipher.final()]);
  return [iv, cipher.getAuthTag(), body].map((b) => b.toString('base64url')).join('.');
}

/** Null where it was sealed by another shop's key. */
function unseal(sealed: string, key: Buffer): string | null {
  const [iv, tag, body] = sealed.split('.').map((part) => Buffer.from(part, 'base64url'));
  if (!iv || !tag || !body) return null;
  try {
    const decipher = createDecipheriv('aes-256-gcm', key, iv).setAuthTag(tag);
    return Buffer.concat([decipher.update(body), decipher.final()]).toString('utf8');
  } catch {
    return null;
  }
}

const spareHash = (code: string) =>
  createHash('sha256')
    .update(code.toUpperCase().replace(/[^0-9A-Z]/g, ''))
    .digest('hex');
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
/** 50 random bits: no list of hashes gives them back in the time it takes to draw new ones. */
const newSpareCode = () => [...randomBytes(10)].map((b, i) => (i === 5 ? '-' : '') + LETTERS[b % LETTERS.length]).join('');

/** The period a code belongs to, give or take one for clocks that differ; null for a wrong one. */
function periodOf(secret: string, code: string, now: Date): number | null {
  const delta = totp(secret).validate({ token: code.replace(/\s/g, ''), timestamp: now.getTime(), window: 1 });
  return delta === null ? null : Math.floor(now.getTime() / 1000 / PERIOD_S) + delta;
}

type WithStep = { id: string; secondStep: string | null; secondStepUsed: number; spareCodes: string[] };

/** What an authenticator's secret is sealed with; `keyBefore` while the shop's own secret is being changed. */
export type StepKeys = { key: Buffer; keyBefore?: Buffer };

/**
 * Takes a code once: a second use of it, at the same moment too, does not pass. A spare code is used up. What is still sealed
 * with the key before is sealed anew.
 */
export async function takeCode(db: Tx, user: WithStep, code: string, { key, keyBefore }: StepKeys, now: Date): Promise<boolean> {
  const sealed = user.secondStep ?? '';
  const current = unseal(sealed, key);
  const secret = current ?? (keyBefore ? unseal(sealed, keyBefore) : null);
  const period = secret ? periodOf(secret, code, now) : null;
  if (secret && period !== null) {
    const where = { id: user.id, secondStep: sealed, secondStepUsed: { lt: period } };
    const data = { secondStepUsed: period, ...(current === null && { secondStep: seal(secret, key) }) };
    return (await db.user.updateMany({ where, data })).count === 1;
  }
  const hash = spareHash(code);
  return (
    (await db.$executeRaw`
      UPDATE "User" SET "spareCodes" = array_remove("spareCodes", ${hash}) WHERE id = ${user.id}::uuid AND ${hash} = ANY ("spareCodes")`) ===
    1
  );
}

/** Turns the second step on once a code proves that the authenticator has the secret. @returns the spare codes, shown once. @throws AppError invalid */
export async function confirmSecondStep(
  { db, actor, now }: ServiceContext & { actor: Actor },
  { secret, code }: ConfirmSecondStep,
  key: Buffer,
): Promise<string[]> {
  const period = periodOf(secret, code, now);
  if (period === null)
    throw new AppError('invalid', 'That code does not fit. Wait for the next one; is the clock of the telephone right?', 'code');
  const codes = Array.from({ length: SPARE_CODES }, newSpareCode);
  const data = { secondStep: seal(secret, key), secondStepUsed: period, spareCodes: codes.map(spareHash) };
  await save(db, actor.userId, data, { at: now, by: actor.userId, action: 'person.second_step_on' });
  return codes;
}

const OFF = { secondStep: null, secondStepUsed: 0, spareCodes: [] };

/** Turns one's own second step off. */
export const dropSecondStep = ({ db, actor, now }: ServiceContext & { actor: Actor }): Promise<void> =>
  save(db, actor.userId, OFF, { at: now, by: actor.userId, action: 'person.second_step_off' });

/** The owner turns it off for somebody who lost telephone and spare codes. */
export const resetSecondStep = ({ db, actor, now }: ServiceContext, { id }: PersonId): Promise<void> =>
  save(db, id, OFF, { at: now, by: actor?.userId ?? null, action: 'person.second_step_reset' });

type Change = { secondStep: string | null; secondStepUsed: number; spareCodes: string[] };

function save(db: Db | Tx, id: string, data: Change, { at, by, action }: { at: Date; by: string | null; action: string }): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const { count } = await tx.user.updateMany({ where: { id }, data });
    if (count === 0) throw new AppError('not_found', 'That person is not on file.');
    await writeAudit(tx, { at, userId: by, action, entity: 'User', entityId: id });
  });
}
