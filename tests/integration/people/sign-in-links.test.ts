import { randomUUID } from 'node:crypto';
import { TOTP, Secret } from 'otpauth';
import { describe, expect, it } from 'vitest';
import { recentMessages } from '@/lib/features/mail/reads/messages';
import { findLiveSession } from '@/lib/features/people/reads/sessions';
import { openPasswordLink } from '@/lib/features/people/reads/password-links';
import type { Role } from '@/lib/core/people/access';
import { ownersGiveCode, personToEdit } from '@/lib/features/people/reads/people';
import { createPerson } from '@/lib/features/people/verbs/create-person';
import { askForPasswordLink, choosePassword, invite } from '@/lib/features/people/verbs/password-links';
import { setOwnersCode, stopAskingOwners } from '@/lib/features/people/verbs/owners-code';
import { confirmSecondStep, dropSecondStep } from '@/lib/features/people/verbs/second-step';
import { hashPassword } from '@/lib/features/people/verbs/password';
import { createSession } from '@/lib/features/people/verbs/sessions';
import { signIn } from '@/lib/features/people/verbs/sign-in';
import { dropStepOf } from '../../../scripts/support/second-step.mjs';
import { useDatabase } from '../../support/database';

const now = new Date('2026-03-04T18:00:00Z');
const later = (minutes: number) => new Date(now.getTime() + minutes * 60_000);
const baseUrl = 'https://shop.example';
const PASSWORD = 'four plain little words';
const database = useDatabase();
const person = {
  alsoVisits: false,
  skills: [],
  shifts: [],
  onCall: [],
  phone: '',
  gaugeGrade: '1A' as const,
  gaugeSpanPa: 3_447_379,
  homeLat: null,
  homeLng: null,
};
const ctx = (at = now) => ({ db: database.db, actor: null, now: at, baseUrl });
const links = async () =>
  (await database.db.outboxMessage.findMany({ where: { kind: 'password_link' }, orderBy: { createdAt: 'asc' } })).map(
    (m) => /sign-in\/link\/([\w-]{43})/.exec(m.text)?.[1] ?? '',
  );
const enter = (email: string, password: string, at = now, code = '', key = Buffer.alloc(32, 7)) =>
  signIn({ db: database.db, now: at }, { email, password, address: '10.0.0.1', userAgent: '', knownDevice: null, second: { code, key } });

describe('links to choose a password', () => {
  it('go to whoever is put on file without one, open once, and nobody signs in before', async () => {
    await createPerson(ctx(), { ...person, name: 'Tova Lind', email: 'tova@shop.example', role: 'technician', password: '' });
    await expect(enter('tova@shop.example', '')).rejects.toMatchObject({ code: 'not_allowed' });
    const [token = ''] = await links();
    expect((await openPasswordLink(database.db, token, later(60 * 24 * 6)))?.user.name).toBe('Tova Lind');
    expect(await openPasswordLink(database.db, token, later(60 * 24 * 8))).toBeNull();
    expect(await openPasswordLink(database.db, `${token.slice(0, 42)}x`, now)).toBeNull();
    await expect(choosePassword(ctx(), { token, password: 'tovalind9999' })).rejects.toMatchObject({ code: 'invalid', field: 'password' });
    const both = await Promise.allSettled([1, 2].map(() => choosePassword(ctx(), { token, password: PASSWORD })));
    expect(both.map((b) => b.status).toSorted()).toEqual(['fulfilled', 'rejected']);
    expect((await enter('tova@shop.example', PASSWORD)).name).toBe('Tova Lind');
  });

  it('are not shown to whoever reads the outbox', async () => {
    const shown = await recentMessages(database.db);
    expect(shown.filter((m) => m.kind === 'password_link')).not.toHaveLength(0);
    for (const token of await links())
      expect(JSON.stringify(shown, (_, v: unknown) => (typeof v === 'bigint' ? String(v) : v))).not.toContain(token);
  });

  it('end with the next one, end every session, and are few in an hour; an unknown address is told nothing', async () => {
    const before = (await links()).length;
    await askForPasswordLink(ctx(), { email: 'nobody@shop.example' });
    expect(await links()).toHaveLength(before);
    for (let i = 0; i < 5; i++) await askForPasswordLink(ctx(later(i)), { email: 'TOVA@shop.example' });
    const sent = (await links()).slice(before);
    expect(sent).toHaveLength(3);
    expect(await openPasswordLink(database.db, sent[0] ?? '', later(3))).toBeNull();
    expect(await openPasswordLink(database.db, sent[2] ?? '', later(63))).toBeNull();
    const session = await enter('tova@shop.example', PASSWORD);
    await choosePassword(ctx(later(4)), { token: sent[2] ?? '', password: 'another good long one' });
    expect((await database.db.staffSession.findUniqueOrThrow({ where: { id: session.sessionId } })).revokedAt).not.toBeNull();
  });

  it('do not go to somebody who is switched off', async () => {
    const { id } = await database.db.user.create({
      data: { name: 'Old', email: 'old@shop.example', role: 'technician', passwordHash: '', active: false },
    });
    await expect(invite(ctx(), { id })).rejects.toMatchObject({ code: 'not_found' });
  });
});

describe('the second step', () => {
  const key = Buffer.alloc(32, 7);
  const secret = new Secret({ size: 20 });
  const codeAt = (at: Date) => new TOTP({ secret }).generate({ timestamp: at.getTime() });

  it('asks for a code after the right password, takes each once, and a spare one in its stead once', async () => {
    const { userId } = await createPerson(ctx(), {
      ...person,
      name: 'Maren Oake',
      email: 'maren@shop.example',
      role: 'owner',
      password: PASSWORD,
    });
    const { sessionId } = await enter('maren@shop.example', PASSWORD);
    const mine = { ...ctx(), actor: { userId, sessionId, role: 'owner' as const, name: 'Maren Oake' } };
    await expect(confirmSecondStep(mine, { secret: secret.base32, code: '000000' }, key)).rejects.toMatchObject({ field: 'code' });
    const spare = await confirmSecondStep(mine, { secret: secret.base32, code: codeAt(now) }, key);
    expect(new Set(spare).size).toBe(10);
    await expect(enter('maren@shop.example', PASSWORD, later(2))).rejects.toMatchObject({ code: 'code_wanted' });
    await expect(enter('maren@shop.example', 'wrong', later(2))).rejects.toMatchObject({ code: 'not_allowed' });
    await expect(enter('maren@shop.example', PASSWORD, later(2), '123')).rejects.toMatchObject({ code: 'code_wrong' });
    const code = codeAt(later(2));
    const twice = await Promise.allSettled([1, 2].map(() => enter('maren@shop.example', PASSWORD, later(2), code)));
    expect(twice.map((t) => t.status).toSorted()).toEqual(['fulfilled', 'rejected']);
    await expect(enter('maren@shop.example', PASSWORD, later(30), code)).rejects.toMatchObject({ code: 'code_wrong' });
    expect((await enter('maren@shop.example', PASSWORD, later(31), spare[3]?.toLowerCase())).userId).toBe(userId);
    await expect(enter('maren@shop.example', PASSWORD, later(32), spare[3])).rejects.toMatchObject({ code: 'code_wrong' });
    // Another shop's key opens nothing.
    await expect(enter('maren@shop.example', PASSWORD, later(40), codeAt(later(40)), Buffer.alloc(32, 8))).rejects.toMatchObject({
      code: 'code_wrong',
    });
    const kept = await database.db.user.findUniqueOrThrow({ where: { id: userId } });
    expect(JSON.stringify(kept)).not.toContain(secret.base32);
    expect(Object.keys((await personToEdit(database.db, userId)) ?? {})).not.toEqual(expect.arrayContaining(['secondStep']));
    await dropSecondStep(mine);
    expect((await enter('maren@shop.example', PASSWORD, later(50))).userId).toBe(userId);
  });

  it('gives the codes of RFC 6238', () => {
    // Appendix B, SHA-1, the last six of its eight digits.
    const rfc = new TOTP({ secret: Secret.fromLatin1('12345678901234567890') });
    expect([59, 1111111109, 1234567890, 20000000000].map((t) => rfc.generate({ timestamp: t * 1000 }))).toEqual([
      '287082',
      '081804',
      '005924',
      '353130',
    ]);
  });
});

describe('a password that has leaked', () => {
  const WEAK = 'finalfantasy';
  const FRESH = 'three further plain words';
  const input = (password: string, fresh?: string) => ({ email: 'june@shop.example', password, fresh, address: '10.0.0.9', userAgent: '', knownDevice: null }); // prettier-ignore
  const come = (at: Date, password: string, fresh?: string, code = '') =>
    signIn({ db: database.db, now: at }, { ...input(password, fresh), second: { code, key: Buffer.alloc(32, 7) } });
  const audits = () => database.db.auditEntry.count({ where: { action: 'person.password_changed' } });

  it('lets nobody in but with a new one, however often; what was opened with it ends', async () => {
    const { id } = await database.db.user.create({
      data: { name: 'June Alder', email: 'june@shop.example', role: 'technician', passwordHash: await hashPassword(WEAK) },
    });
    const open = await createSession(database.db, { userId: id, userAgent: '', createdAt: now, expiresAt: later(600) });
    for (let i = 0; i < 12; i++) await expect(come(now, WEAK)).rejects.toMatchObject({ code: 'fresh_wanted' });
    for (const again of [WEAK, `${WEAK}1`, 'too short', 'june alder 99'])
      await expect(come(later(1), WEAK, again)).rejects.toMatchObject({ code: 'fresh_wrong' });
    await expect(come(later(1), 'not the password', FRESH)).rejects.toMatchObject({ code: 'not_allowed' });
    expect([await audits(), await findLiveSession(database.db, open.id, later(1)) === null]).toEqual([0, false]); // prettier-ignore
    const both = await Promise.allSettled([1, 2].map(() => come(later(2), WEAK, FRESH)));
    expect(both.map((b) => b.status).toSorted()).toEqual(['fulfilled', 'rejected']);
    expect([await audits(), await findLiveSession(database.db, open.id, later(2))]).toEqual([1, null]);
    await expect(come(later(3), WEAK, FRESH)).rejects.toMatchObject({ code: 'not_allowed' });
    expect((await come(later(3), FRESH)).userId).toBe(id);
  });

  it('is not changed before the second step has been passed', async () => {
    const june = await database.db.user.update({ where: { email: 'june@shop.example' }, data: { passwordHash: await hashPassword(WEAK) } });
    const secret = new Secret({ size: 20 }).base32;
    const code = (at: Date) => new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: at.getTime() });
    const actor = { userId: june.id, role: june.role, name: june.name, sessionId: '' };
    await confirmSecondStep({ ...ctx(), actor }, { secret, code: code(now) }, Buffer.alloc(32, 7));
    await expect(come(later(4), WEAK, FRESH)).rejects.toMatchObject({ code: 'code_wanted' });
    await expect(come(later(4), WEAK, FRESH, '000000')).rejects.toMatchObject({ code: 'code_wrong' });
    await expect(come(later(4), FRESH)).rejects.toMatchObject({ code: 'not_allowed' });
    expect((await come(later(4), WEAK, FRESH, code(later(4)))).userId).toBe(june.id);
  });
});

describe('whether owners are asked for a second step', () => {
  const asked = () => ownersGiveCode(database.db);
  const person = async (role: Role, secondStep: string | null = null) => {
    const { id, name } = await database.db.user.create({
      data: { name: 'Maren', email: `${randomUUID()}@shop.example`, role, passwordHash: '', secondStep },
    });
    return { ...ctx(), actor: { userId: id, role, name, sessionId: '' } };
  };
  const turnedOff = async () => (await Promise.all([database.db.shopSettings.update({ where: { id: 1 }, data: { ownersGiveCode: true } }), database.db.user.deleteMany({ where: { role: 'owner' } })]))[0]; // prettier-ignore

  it('nobody is in a shop that is not set up; a new one asks', async () => {
    expect(await asked()).toBe(false);
    await database.db.shopSettings.create({ data: { id: 1, name: 'Test shop', timeZone: 'America/Chicago' } });
    expect(await asked()).toBe(true);
  });

  it('is an owner’s to turn off without a telephone, until an owner has a second step: then a password alone turns nothing off', async () => {
    await turnedOff();
    for (const role of ['dispatcher', 'technician'] as const)
      await expect(stopAskingOwners(await person(role))).rejects.toMatchObject({ code: 'not_allowed' });
    expect(await asked()).toBe(true);
    const first = await person('owner');
    await stopAskingOwners(first);
    expect(await asked()).toBe(false);
    await setOwnersCode(first, { ownersGiveCode: true });
    const second = await person('owner', 'sealed');
    await expect(stopAskingOwners(first)).rejects.toMatchObject({ code: 'not_allowed', message: /under People/ });
    expect(await asked()).toBe(true);
    await database.db.user.update({ where: { id: second.actor.userId }, data: { active: false } });
    await stopAskingOwners(first);
    expect(await asked()).toBe(false);
    const noted = await database.db.auditEntry.findMany({
      where: { entity: 'ShopSettings', userId: first.actor.userId },
      orderBy: { id: 'asc' },
    });
    expect(noted.map((n) => n.action)).toEqual(['shop.step_not_asked', 'shop.step_asked', 'shop.step_not_asked']);
  });

  it('is lost with telephone and spare codes to whoever keeps the server alone', async () => {
    const { actor } = await person('owner', 'sealed');
    const { email } = await database.db.user.update({ where: { id: actor.userId }, data: { spareCodes: ['hash'], secondStepUsed: 9 } });
    expect(await dropStepOf(database.url, 'nobody@shop.example')).toBeNull();
    expect(await dropStepOf(database.url, email.toUpperCase())).toBe('Maren');
    expect(await database.db.user.findUnique({ where: { id: actor.userId } })).toMatchObject({
      secondStep: null,
      secondStepUsed: 0,
      spareCodes: [],
    });
    const noted = await database.db.auditEntry.findMany({ where: { action: 'person.second_step_lost', entityId: actor.userId } });
    expect(noted).toMatchObject([{ userId: null, entity: 'User' }]);
    expect(await dropStepOf(database.url, email)).toBeNull();
  });
});
