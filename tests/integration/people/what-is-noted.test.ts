import { randomUUID } from 'node:crypto';
import { TOTP, Secret } from 'otpauth';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Actor } from '@/lib/core/people/access';
import { findLiveSession } from '@/lib/features/people/reads/sessions';
import { createPerson } from '@/lib/features/people/verbs/create-person';
import { endSession } from '@/lib/features/people/verbs/end-session';
import { confirmSecondStep, dropSecondStep } from '@/lib/features/people/verbs/second-step';
import { setActive } from '@/lib/features/people/verbs/set-active';
import { changePassword, setPassword } from '@/lib/features/people/verbs/set-password';
import { setUpShop } from '@/lib/features/people/verbs/set-up';
import { signIn, type SignInInput } from '@/lib/features/people/verbs/sign-in';
import type { NewPerson } from '@/lib/schemas/people/people';
import { useDatabase } from '../../support/database';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const later = (minutes: number, seconds = 0) => new Date(now.getTime() + minutes * 60_000 + seconds * 1000);
const PASSWORD = 'four plain little words';
const CODE = '2718-2818-2845';
const tova: NewPerson = {
  ...{
    name: 'Tova Lind',
    email: 'tova@shop.example',
    role: 'technician',
    alsoVisits: false,
    skills: [],
    shifts: [],
    onCall: [],
    phone: '',
  },
  ...{ gaugeGrade: '1A', gaugeSpanPa: 3_447_379, homeLat: null, homeLng: null, password: PASSWORD },
};
let [ownerId, tovaId] = ['', ''];
const enter = (email: string, password = PASSWORD, at = now, over: Partial<SignInInput> = {}) =>
  signIn({ db: database.db, now: at }, { email, password, address: randomUUID(), userAgent: 'Test', knownDevice: null, ...over });
const owner = (sessionId = '') => ({ userId: ownerId, role: 'owner' as const, name: 'Maren Oake', sessionId });
const ctx = (at = now, actor: Actor = owner()) => ({ db: database.db, actor, now: at });
/** Who did it, to whom, and with what beside, of each line about an action. */
const noted = async (action: string) =>
  (await database.db.auditEntry.findMany({ where: { action }, orderBy: { id: 'asc' } })).map(
    (a) => [a.userId, a.entity, a.entityId, a.at] as const,
  );
const live = (sessionId: string, at = now) => findLiveSession(database.db, sessionId, at);

beforeAll(async () => {
  const shop = {
    code: CODE,
    shop: 'Test shop',
    timeZone: 'Europe/Dublin',
    currency: 'EUR',
    name: 'Maren Oake',
    email: 'maren@shop.example',
  };
  ownerId = (await setUpShop({ db: database.db, now }, { ...shop, password: PASSWORD }, CODE)).userId;
  tovaId = (await createPerson(ctx(), tova)).userId;
});

describe('what is noted of people, and under whose name', () => {
  it('the shop’s first owner, by himself, in the habits of where the currency is used', async () => {
    expect(await noted('shop.set_up')).toEqual([[ownerId, 'User', ownerId, now]]);
    expect(await database.db.shopSettings.findUniqueOrThrow({ where: { id: 1 } })).toMatchObject({ name: 'Test shop', currency: 'EUR' });
    expect((await database.db.shopSettings.findUniqueOrThrow({ where: { id: 1 } })).region).not.toBe('us');
  });

  it('a password that the owner sets: the person is out everywhere at once; a weak one, or nobody’s, changes nothing', async () => {
    const [here, there] = [await enter(tova.email), await enter(tova.email)];
    await expect(setPassword(ctx(), { id: tovaId, password: 'tovalind9999' })).rejects.toMatchObject({
      code: 'invalid',
      field: 'password',
    });
    await expect(setPassword(ctx(), { id: randomUUID(), password: PASSWORD })).rejects.toMatchObject({ code: 'not_found' });
    expect(await live(here.sessionId)).not.toBeNull();
    expect(await noted('person.password_set')).toEqual([]);
    await setPassword(ctx(later(1)), { id: tovaId, password: 'another good long one' });
    expect([await live(here.sessionId), await live(there.sessionId)]).toEqual([null, null]);
    expect(await noted('person.password_set')).toEqual([[ownerId, 'User', tovaId, later(1)]]);
    await expect(enter(tova.email)).rejects.toMatchObject({ code: 'not_allowed' });
  });

  it('one’s own new password, and sessions that are ended; where none was open, nothing', async () => {
    const { sessionId } = await enter(tova.email, 'another good long one');
    const me = { userId: tovaId, role: 'technician' as const, name: 'Tova Lind', sessionId };
    await changePassword(ctx(now, me), { current: 'another good long one', password: PASSWORD });
    expect(await noted('person.password_changed')).toEqual([[tovaId, 'User', tovaId, now]]);
    expect(await endSession(ctx(), { userId: tovaId })).toBe(1);
    expect(await endSession(ctx(), { userId: tovaId })).toBe(0);
    expect(await noted('session.ended')).toEqual([[ownerId, 'User', tovaId, now]]);
  });

  it('the second step, on and off', async () => {
    const secret = new Secret({ size: 20 });
    const code = new TOTP({ secret }).generate({ timestamp: now.getTime() });
    await confirmSecondStep(ctx(), { secret: secret.base32, code }, Buffer.alloc(32, 7));
    await dropSecondStep(ctx(later(1)));
    expect(await noted('person.second_step_on')).toEqual([[ownerId, 'User', ownerId, now]]);
    expect(await noted('person.second_step_off')).toEqual([[ownerId, 'User', ownerId, later(1)]]);
  });

  it('nothing of a switch that was overtaken by another one', async () => {
    await expect(setActive(ctx(), { id: tovaId, version: 7, active: 'no' })).rejects.toMatchObject({ code: 'conflict' });
    expect(await noted('person.deactivated')).toEqual([]);
    expect((await enter(tova.email, PASSWORD, later(20))).userId).toBe(tovaId);
  });
});

describe('tries at a sign-in', () => {
  it('are forgotten once one is right: seven wrong, a right one, and seven more are not yet too many', async () => {
    for (const minute of [100, 101]) {
      for (let i = 0; i < 7; i++) await expect(enter(tova.email, 'wrong', later(minute))).rejects.toMatchObject({ code: 'not_allowed' });
      expect((await enter(` ${tova.email.toUpperCase()} `, PASSWORD, later(minute))).userId).toBe(tovaId);
    }
  });

  it('do not count where only the code is still wanted; a wrong code does', async () => {
    const key = Buffer.alloc(32, 7);
    const secret = new Secret({ size: 20 });
    const code = new TOTP({ secret }).generate({ timestamp: later(200).getTime() });
    const spare = await confirmSecondStep(ctx(later(200)), { secret: secret.base32, code }, key);
    const withCode = (given: string, at: Date) => enter('maren@shop.example', PASSWORD, at, { second: { code: given, key } });
    for (let i = 0; i < 12; i++) await expect(withCode('', later(201))).rejects.toMatchObject({ code: 'code_wanted' });
    // A spare code may be typed without its dash; none of another person fits.
    expect((await withCode((spare[0] ?? '').replace('-', ''), later(201))).userId).toBe(ownerId);
    for (let i = 0; i < 8; i++) await expect(withCode('000 000', later(202))).rejects.toMatchObject({ code: 'code_wrong' });
    await expect(withCode(spare[1] ?? '', later(202))).rejects.toMatchObject({ code: 'too_many' });
    expect((await withCode(spare[1] ?? '', later(220))).userId).toBe(ownerId);
  });
});

describe('a second step, while the shop’s secret is being changed', () => {
  const [key, keyBefore, other] = [Buffer.alloc(32, 1), Buffer.alloc(32, 7), Buffer.alloc(32, 9)];
  const secret = new Secret({ size: 20 });
  const at = (minutes: number) => later(400 + minutes);
  const withCode = (minutes: number, keys: { key: Buffer; keyBefore?: Buffer }) =>
    enter('maren@shop.example', PASSWORD, at(minutes), {
      second: { code: new TOTP({ secret }).generate({ timestamp: at(minutes).getTime() }), ...keys },
    });

  it('counts by the key before, is sealed with the new one from then on, and by no other key', async () => {
    const code = new TOTP({ secret }).generate({ timestamp: at(0).getTime() });
    await confirmSecondStep(ctx(at(0)), { secret: secret.base32, code }, keyBefore);
    await expect(withCode(2, { key })).rejects.toMatchObject({ code: 'code_wrong' });
    await expect(withCode(4, { key, keyBefore: other })).rejects.toMatchObject({ code: 'code_wrong' });
    expect((await withCode(6, { key, keyBefore })).userId).toBe(ownerId);
    // Once it was used, the one before is not needed any more, and opens nothing.
    expect((await withCode(8, { key })).userId).toBe(ownerId);
    await expect(withCode(10, { key: keyBefore })).rejects.toMatchObject({ code: 'code_wrong' });
  });
});

it('a session says when it was last seen, to the minute, and keeps a browser’s name only so far', async () => {
  const at = later(300);
  const { sessionId } = await enter(tova.email, PASSWORD, at, { userAgent: 'B'.repeat(900) });
  const session = () => database.db.staffSession.findUniqueOrThrow({ where: { id: sessionId } });
  expect([(await session()).userAgent, (await session()).lastSeenAt]).toEqual(['B'.repeat(200), at]);
  await live(sessionId, later(300, 59));
  expect((await session()).lastSeenAt).toEqual(at);
  await live(sessionId, later(301, 1));
  expect((await session()).lastSeenAt).toEqual(later(301, 1));
});
