import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { calendarOwners } from '@/lib/features/feeds/reads/calendar-feeds';
import { rankingChoices } from '@/lib/features/owner/reads/ranking';
import { vansOfShop } from '@/lib/features/parts/reads/parts';
import { goesToKitchens } from '@/lib/features/people/reads/visiting';
import { weekProblem } from '@/lib/features/planning/reads/week-problem';
import { technicians } from '@/lib/features/refrigerant-book/reads/people';
import { findLiveSession } from '@/lib/features/people/reads/sessions';
import { createPerson } from '@/lib/features/people/verbs/create-person';
import { editPerson } from '@/lib/features/people/verbs/edit-person';
import { endSession } from '@/lib/features/people/verbs/end-session';
import { proveIt } from '@/lib/features/people/verbs/prove-it';
import { setActive } from '@/lib/features/people/verbs/set-active';
import { changePassword, setPassword } from '@/lib/features/people/verbs/set-password';
import { shopHabits } from '@/lib/features/shop/reads/shop';
import { setUpShop } from '@/lib/features/people/verbs/set-up';
import { signIn, type SignInInput } from '@/lib/features/people/verbs/sign-in';
import { addTimeOff } from '@/lib/features/people/verbs/time-off';
import { isProven } from '@/lib/core/people/proof';
import { localDate } from '@/lib/core/calendar';
import { bookableTechnicians, visitsBetween } from '@/lib/features/visits/reads/visits';
import type { NewPerson } from '@/lib/schemas/people/people';
import { customerRow, kitchenRow, visitRow } from '../../support/factories';
import { useDatabase } from '../../support/database';

const now = new Date('2026-03-04T18:00:00Z');
const later = (minutes: number) => new Date(now.getTime() + minutes * 60_000);
const PASSWORD = 'four plain little words';
const CODE = '2718-2818-2845';
const shop = {
  code: '2718 28182845',
  shop: 'Test shop',
  timeZone: 'America/Chicago',
  currency: 'USD',
  name: 'Maren Oake',
  email: 'maren@shop.example',
  password: PASSWORD,
};
const person = (over: Partial<NewPerson> = {}): NewPerson => ({
  name: 'Tova Lind',
  email: 'tova@shop.example',
  role: 'technician',
  alsoVisits: false,
  skills: ['flammable'],
  shifts: [],
  onCall: [],
  phone: '',
  gaugeGrade: '1A',
  gaugeSpanPa: 3_447_379,
  homeLat: null,
  homeLng: null,
  password: PASSWORD,
  ...over,
});

describe('set-up', () => {
  const database = useDatabase();

  it('makes the shop and one owner, however many try at the same moment', async () => {
    const tries = await Promise.allSettled(
      Array.from({ length: 5 }, (_, i) => setUpShop({ db: database.db, now }, { ...shop, email: `owner${i}@shop.example` }, CODE)),
    );
    expect(tries.filter((t) => t.status === 'fulfilled')).toHaveLength(1);
    expect(tries.find((t) => t.status === 'rejected')).toMatchObject({ reason: { code: 'conflict' } });
    expect(await database.db.user.findMany({ select: { role: true } })).toEqual([{ role: 'owner' }]);
    expect(await database.db.shopSettings.findUnique({ where: { id: 1 } })).toMatchObject({
      name: 'Test shop',
      currency: 'USD',
      region: 'us',
      dates: 'month_first',
    });
    expect(await shopHabits(database.db)).toEqual({ dates: 'month_first', english: 'en-US', paper: 'LETTER' });
    await database.db.shopSettings.update({ where: { id: 1 }, data: { region: 'gb', dates: 'day_first' } });
    expect(await shopHabits(database.db)).toEqual({ dates: 'day_first', english: 'en-GB', paper: 'A4' });
  });

  it('is refused to whoever does not know the code', async () => {
    await database.db.user.deleteMany();
    const late = setUpShop({ db: database.db, now }, { ...shop, code: '2718-2818-2846' }, CODE);
    await expect(late).rejects.toMatchObject({ code: 'invalid', field: 'code' });
    expect(await database.db.user.count()).toBe(0);
  });

  it('hashes no password once somebody is on file: 200 tries take no time', async () => {
    await database.db.user.create({ data: { name: 'A', email: 'a@shop.example', role: 'owner', passwordHash: '' } });
    const from = process.cpuUsage();
    const tries = await Promise.allSettled(Array.from({ length: 200 }, () => setUpShop({ db: database.db, now }, shop, CODE)));
    expect(tries.every((t) => t.status === 'rejected' && (t.reason as { code?: string }).code === 'conflict')).toBe(true);
    // Hashing them would take about 25 ms each.
    expect(process.cpuUsage(from).user / 1000).toBeLessThan(2000);
  });
});

describe('people', () => {
  const database = useDatabase();
  let owner = { userId: '', sessionId: '' };
  const as = (at = now) => ({ db: database.db, actor: owner, now: at });
  const enter = (email: string, password = PASSWORD, at = now, over: Partial<SignInInput> = {}) =>
    signIn({ db: database.db, now: at }, { email, password, address: '10.0.0.1', userAgent: 'Test', knownDevice: null, ...over });
  const live = (sessionId: string, at = now) => findLiveSession(database.db, sessionId, at);

  it.each([
    ['a null character', 'maren\u0000@shop.example', PASSWORD],
    ['a megabyte', `${'a'.repeat(1_000_000)}@shop.example`, PASSWORD],
    ['a password of a megabyte', 'maren@shop.example', 'a'.repeat(1_000_000)],
  ])('are told the same about %s as about any wrong sign-in', async (_, email, password) => {
    await expect(enter(email, password)).rejects.toMatchObject({ code: 'not_allowed' });
  });

  it('sign in once they are on file, by e-mail in any case', async () => {
    owner = { ...owner, ...(await setUpShop({ db: database.db, now }, shop, CODE)) };
    owner.sessionId = (await enter('MAREN@shop.example')).sessionId;
    const { userId } = await createPerson(as(), person());
    expect((await enter('tova@shop.example')).userId).toBe(userId);
    await expect(createPerson(as(), person({ name: 'Other' }))).rejects.toMatchObject({ code: 'conflict', field: 'email' });
    const stored = await database.db.user.findUniqueOrThrow({ where: { id: userId } });
    expect(stored.passwordHash).toMatch(/^\$argon2id\$/);
  });

  it('are held off after eight wrong tries, for a quarter of an hour, and let in again by a new password', async () => {
    const { userId } = await createPerson(as(), person({ email: 'june@shop.example', name: 'June Castell' }));
    for (let i = 0; i < 8; i++) await expect(enter('june@shop.example', 'wrong')).rejects.toMatchObject({ code: 'not_allowed' });
    await expect(enter('june@shop.example')).rejects.toMatchObject({ code: 'too_many' });
    await expect(enter('june@shop.example', PASSWORD, later(14))).rejects.toMatchObject({ code: 'too_many' });
    expect((await enter('june@shop.example', PASSWORD, later(16))).userId).toBe(userId);
    for (let i = 0; i < 8; i++) await enter('june@shop.example', 'wrong').catch(() => {});
    await setPassword(as(), { id: userId, password: 'another good long one' });
    expect((await enter('june@shop.example', 'another good long one')).userId).toBe(userId);
  });

  it('of sixty tries at once on one account exactly eight are checked', async () => {
    const tries = await Promise.all(
      Array.from({ length: 60 }, (_, i) =>
        enter('maren@shop.example', 'wrong', later(100), { address: `10.1.0.${i}` }).catch((e) => e.code),
      ),
    );
    expect(tries.filter((code) => code === 'not_allowed')).toHaveLength(8);
    expect(tries.filter((code) => code === 'too_many')).toHaveLength(52);
  });

  it('are not shut out by strangers on a device where they signed in before; that device is held off by its own tries', async () => {
    await expect(enter('maren@shop.example', PASSWORD, later(101))).rejects.toMatchObject({ code: 'too_many' });
    const hers = { knownDevice: 'her own tablet' };
    expect((await enter('maren@shop.example', PASSWORD, later(101), hers)).role).toBe('owner');
    for (let i = 0; i < 8; i++)
      await expect(enter('maren@shop.example', 'wrong', later(102), hers)).rejects.toMatchObject({ code: 'not_allowed' });
    await expect(enter('maren@shop.example', PASSWORD, later(102), hers)).rejects.toMatchObject({ code: 'too_many' });
    expect((await enter('maren@shop.example', PASSWORD, later(118), hers)).role).toBe('owner');
  });

  it('from one address at most forty wrong tries go through, whoever they are aimed at; right ones do not count', async () => {
    const at = { address: '10.2.0.1' };
    for (let i = 0; i < 3; i++) await enter('maren@shop.example', PASSWORD, later(200), at);
    const wrong = (i: number) => enter(`nobody${i}@shop.example`, 'wrong', later(200), at).catch((e) => e.code);
    const codes = await Promise.all(Array.from({ length: 45 }, (_, i) => wrong(i)));
    expect(codes.filter((code) => code === 'not_allowed')).toHaveLength(40);
    await expect(enter('maren@shop.example', PASSWORD, later(200), at)).rejects.toMatchObject({ code: 'too_many' });
    expect((await enter('maren@shop.example', PASSWORD, later(200), { address: '10.2.0.2' })).role).toBe('owner');
  });

  it('what no e-mail can be is refused in the same words and not kept', async () => {
    for (const email of ['nul\u0000@shop.example', `${'a'.repeat(1_000_000)}@shop.example`, ''])
      await expect(enter(email, PASSWORD, later(300))).rejects.toMatchObject({ code: 'not_allowed' });
    await expect(enter('maren@shop.example', 'a'.repeat(1001), later(300))).rejects.toMatchObject({ code: 'not_allowed' });
    expect(await database.db.brake.count({ where: { key: { contains: 'aaaa' } } })).toBe(0);
  });

  it('an unknown address is refused in the same words', async () => {
    const [unknown, wrong] = await Promise.all([
      enter('nobody@shop.example').catch((e: Error) => e),
      enter('tova@shop.example', 'wrong').catch((e: Error) => e),
    ]);
    expect((unknown as Error).message).toBe((wrong as Error).message);
  });

  it('are signed out where they sign in again in the same browser', async () => {
    const first = (await enter('tova@shop.example')).sessionId;
    const again = await signIn(
      { db: database.db, now },
      { email: 'tova@shop.example', password: PASSWORD, address: '10.0.0.1', userAgent: 'Test', before: first, knownDevice: null },
    );
    expect([await live(first), (await live(again.sessionId))?.name]).toEqual([null, 'Tova Lind']);
  });

  it('stay signed in as long as their role lets them, touched or not', async () => {
    const technician = (await enter('tova@shop.example')).sessionId;
    const boss = (await enter('maren@shop.example')).sessionId;
    const hours = (n: number) => later(n * 60);
    expect((await live(technician, hours(24 * 13)))?.role).toBe('technician');
    expect(await live(technician, hours(24 * 13 + 24 * 14))).toBeNull();
    expect((await live(boss, hours(3)))?.role).toBe('owner');
    expect(await live(boss, hours(3 + 4))).toBeNull();
    for (let h = 3; h < 12; h += 3) expect(await live(boss, hours(h))).not.toBeNull();
    expect(await live(boss, hours(12))).toBeNull();
  });

  it('lose a session that is ended, one or all, but not the one in the owner’s hand', async () => {
    const first = await enter('tova@shop.example');
    const second = await enter('tova@shop.example');
    await endSession(as(), { userId: first.userId, sessionId: first.sessionId });
    expect(await live(first.sessionId)).toBeNull();
    expect(await live(second.sessionId)).toMatchObject({ name: 'Tova Lind', role: 'technician' });
    await endSession(as(), { userId: first.userId });
    expect(await live(second.sessionId)).toBeNull();
    const mine = await enter('maren@shop.example');
    await endSession(as(), { userId: owner.userId });
    expect(await live(owner.sessionId)).not.toBeNull();
    expect(await live(mine.sessionId)).toBeNull();
  });

  it('cannot end a session of somebody else by its id', async () => {
    const tova = await enter('tova@shop.example');
    expect(await endSession(as(), { userId: owner.userId, sessionId: tova.sessionId })).toBe(0);
    expect(await live(tova.sessionId)).not.toBeNull();
  });

  it('change their own password with the old one, and are then signed out elsewhere', async () => {
    const here = await enter('tova@shop.example');
    const there = await enter('tova@shop.example');
    const tova = { db: database.db, now, actor: { userId: here.userId, sessionId: here.sessionId } };
    await expect(changePassword(tova, { current: 'wrong', password: 'a fresh long password' })).rejects.toMatchObject({ field: 'current' });
    await expect(changePassword(tova, { current: PASSWORD, password: 'tovalind9999' })).rejects.toMatchObject({
      code: 'invalid',
      field: 'password',
    });
    await changePassword(tova, { current: PASSWORD, password: 'a fresh long password' });
    expect(await live(here.sessionId)).not.toBeNull();
    expect(await live(there.sessionId)).toBeNull();
    await expect(enter('tova@shop.example')).rejects.toMatchObject({ code: 'not_allowed' });
  });

  it('may not guess at the password they have without end, however quickly', async () => {
    const { userId, sessionId } = await enter('tova@shop.example', 'a fresh long password');
    const tova = { db: database.db, now, actor: { userId, sessionId } };
    const guess = (current: string) => changePassword(tova, { current, password: 'yet another long password' }).catch((e) => e.code);
    const codes = await Promise.all(Array.from({ length: 40 }, () => guess('wrong')));
    expect(codes.filter((code) => code === 'invalid')).toHaveLength(8);
    expect(codes.filter((code) => code === 'too_many')).toHaveLength(32);
    expect(await guess('a fresh long password')).toBe('too_many');
  });

  it('prove that it is them: the password once more, and no more guesses at it than at changing it', async () => {
    await setPassword(as(), { id: (await enter('maren@shop.example')).userId, password: PASSWORD });
    const { sessionId, userId } = await enter('maren@shop.example');
    const at = later(45);
    const session = await live(sessionId, at);
    if (!session) throw new Error('no session');
    expect([isProven(session.provenAt, at, 'open'), isProven(session.provenAt, at, 'finish')]).toEqual([false, true]);
    const ctx = { db: database.db, now: at, actor: session };
    await expect(proveIt(ctx, { password: 'wrong' })).rejects.toMatchObject({ code: 'invalid', field: 'password' });
    await proveIt(ctx, { password: PASSWORD });
    const proven = await live(sessionId, at);
    expect(isProven(proven?.provenAt ?? now, later(74), 'open')).toBe(true);
    const codes = await Promise.all(Array.from({ length: 20 }, () => proveIt(ctx, { password: 'wrong' }).catch((e) => e.code)));
    expect(codes.filter((code) => code === 'too_many')).toHaveLength(12);
    expect((await enter('maren@shop.example')).userId).toBe(userId);
  });

  it('change role at once, and the edit tells a stale one', async () => {
    const bastian = await createPerson(as(), person({ email: 'bastian@shop.example', name: 'Bastian Roe' }));
    const session = await enter('bastian@shop.example');
    const { password: _, ...fields } = person({ email: 'bastian@shop.example', name: 'Bastian Roe', role: 'dispatcher' });
    await editPerson(as(), { id: bastian.userId, version: 1, ...fields });
    expect(await live(session.sessionId)).toMatchObject({ role: 'dispatcher' });
    await expect(editPerson(as(), { id: bastian.userId, version: 1, ...fields })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Maren Oake changed this person'),
    });
  });

  it('switched off cannot sign in, lose their sessions and are not offered for visits; not while visits are open', async () => {
    const { userId } = await createPerson(as(), person({ email: 'gone@shop.example', name: 'Gone Soon' }));
    const session = await enter('gone@shop.example');
    const customer = await database.db.customer.create({ data: customerRow() });
    const kitchen = await database.db.kitchen.create({ data: kitchenRow(customer.id) });
    const visit = await database.db.visit.create({ data: visitRow(kitchen.id, userId, now, 60) });
    await expect(setActive(as(), { id: userId, version: 1, active: 'no' })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('1 open visit.'),
    });
    await database.db.visit.update({ where: { id: visit.id }, data: { status: 'done' } });
    await setActive(as(), { id: userId, version: 1, active: 'no' });
    expect(await live(session.sessionId)).toBeNull();
    await expect(enter('gone@shop.example')).rejects.toMatchObject({ code: 'not_allowed' });
    expect((await bookableTechnicians(database.db)).map((t) => t.id)).not.toContain(userId);
    await setActive(as(), { id: userId, version: 2, active: 'yes' });
    expect((await enter('gone@shop.example')).userId).toBe(userId);
  });

  it('of any role go to kitchens where that is said: booked, planned for and counted, and not unsaid over open visits', async () => {
    const { db } = database;
    const own = { email: 'solo@shop.example', name: 'Solo Desk', role: 'dispatcher' as const };
    const { userId } = await createPerson(as(), person({ ...own, alsoVisits: true }));
    const { password: _, ...fields } = person(own);
    const visiting = async () => [
      (await bookableTechnicians(db)).some((t) => t.id === userId),
      (await vansOfShop(db)).some((t) => t.id === userId),
      (await technicians(db)).some((t) => t.id === userId),
      (await calendarOwners(db)).technicians.some((t) => t.id === userId),
      (await rankingChoices(db)).people.some((t) => t.id === userId),
      (await weekProblem(db, localDate('2026-03-09'), now)).problem.technicians.some((t) => t.id === userId),
      await goesToKitchens(db, userId),
    ];
    expect(new Set(await visiting())).toEqual(new Set([true]));
    const customer = await db.customer.create({ data: customerRow() });
    const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id) });
    const visit = await db.visit.create({ data: visitRow(kitchen.id, userId, later(60), 60) });
    const stays = editPerson(as(), { id: userId, version: 1, ...fields });
    await expect(stays).rejects.toMatchObject({ code: 'conflict', field: 'role', message: expect.stringContaining('1 open visit') });
    await db.visit.update({ where: { id: visit.id }, data: { status: 'done' } });
    await editPerson(as(), { id: userId, version: 1, ...fields });
    expect(new Set(await visiting())).toEqual(new Set([false]));
    expect(await goesToKitchens(db, randomUUID())).toBe(false);
  });

  it('stay technicians while visits are open, so that none is left on nobody’s row', async () => {
    const { userId } = await createPerson(as(), person({ email: 'desk@shop.example', name: 'Desk Bound' }));
    const { password: _, ...fields } = person({ email: 'desk@shop.example', name: 'Desk Bound' });
    const customer = await database.db.customer.create({ data: customerRow() });
    const kitchen = await database.db.kitchen.create({ data: kitchenRow(customer.id) });
    const visit = await database.db.visit.create({ data: visitRow(kitchen.id, userId, now, 60, { status: 'started' }) });
    const toDesk = { id: userId, version: 1, ...fields, role: 'dispatcher' as const };
    await expect(editPerson(as(), toDesk)).rejects.toMatchObject({
      code: 'conflict',
      field: 'role',
      message: 'Desk Bound has 1 open visit. Give them to someone else first.',
    });
    await database.db.visit.update({ where: { id: visit.id }, data: { status: 'done' } });
    await editPerson(as(), toDesk);
    const shown = await visitsBetween(database.db, now, later(60));
    expect(shown.find((v) => v.id === visit.id)).toMatchObject({ id: visit.id, technicianId: userId, technician: 'Desk Bound' });
  });

  it('always leave the shop an owner', async () => {
    const version = async () => (await database.db.user.findUniqueOrThrow({ where: { id: owner.userId } })).version;
    const { password: _, ...fields } = person({ name: 'Maren Oake', email: 'maren@shop.example', role: 'dispatcher' });
    await expect(editPerson(as(), { id: owner.userId, version: await version(), ...fields })).rejects.toMatchObject({
      code: 'conflict',
      field: 'role',
    });
    await expect(setActive(as(), { id: owner.userId, version: await version(), active: 'no' })).rejects.toMatchObject({ code: 'conflict' });
    // Two owners who step down at the same moment: one stays.
    const second = await createPerson(as(), person({ email: 'second@shop.example', name: 'Second Owner', role: 'owner' }));
    const both = await Promise.allSettled([
      setActive(as(), { id: owner.userId, version: await version(), active: 'no' }),
      setActive(as(), { id: second.userId, version: 1, active: 'no' }),
    ]);
    expect(both.map((r) => r.status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(await database.db.user.count({ where: { role: 'owner', active: true } })).toBe(1);
  });

  it('have days off as booking sees them', async () => {
    const { userId } = await createPerson(as(), person({ email: 'off@shop.example', name: 'Off Duty' }));
    await addTimeOff(as(), { userId, from: localDate('2026-07-01'), to: localDate('2026-07-14'), reason: 'Holiday' });
    const found = (await bookableTechnicians(database.db)).find((t) => t.id === userId);
    expect(found?.timeOff).toEqual([{ startsOn: '2026-07-01', endsOn: '2026-07-15', reason: 'Holiday' }]);
  });

  it('have days off that name the visits booked on them, by the shop’s calendar', async () => {
    const { userId } = await createPerson(as(), person({ email: 'away@shop.example', name: 'Away Soon' }));
    const customer = await database.db.customer.create({ data: customerRow() });
    const kitchen = await database.db.kitchen.create({ data: kitchenRow(customer.id, { name: 'Pearl Row' }) });
    // The shop's clock is five hours behind UTC: late on the 1st, late on the 2nd, early on the 4th.
    const starts = ['2026-08-02T04:00:00Z', '2026-08-03T04:00:00Z', '2026-08-04T05:00:00Z'];
    const rows = starts.map((at) => visitRow(kitchen.id, userId, new Date(at), 30));
    await database.db.visit.createMany({ data: rows });
    const found = await addTimeOff(as(), { userId, from: localDate('2026-08-02'), to: localDate('2026-08-03'), reason: 'Away' });
    expect(found).toMatchObject({ total: 1, visits: [{ id: rows[1]!.id, kitchen: 'Pearl Row', technician: 'Away Soon' }] });
    const shown = await visitsBetween(database.db, new Date(starts[1]!), new Date(starts[2]!));
    expect(shown).toMatchObject([{ id: rows[1]!.id, timeOff: [{ startsOn: '2026-08-02', endsOn: '2026-08-04', reason: 'Away' }] }]);
  });
});
