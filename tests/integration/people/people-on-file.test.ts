import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { anyoneOnFile, listPeople, personToEdit, sharesArrivals, signInFacts, unitsOf } from '@/lib/features/people/reads/people';
import { liveSessions } from '@/lib/features/people/reads/sessions';
import { createPerson } from '@/lib/features/people/verbs/create-person';
import { editPerson } from '@/lib/features/people/verbs/edit-person';
import { setMyArrivals } from '@/lib/features/people/verbs/my-arrivals';
import { setMyUnits } from '@/lib/features/people/verbs/my-units';
import { invite } from '@/lib/features/people/verbs/password-links';
import { confirmSecondStep, resetSecondStep } from '@/lib/features/people/verbs/second-step';
import { setActive } from '@/lib/features/people/verbs/set-active';
import { addTimeOff, removeTimeOff } from '@/lib/features/people/verbs/time-off';
import type { NewPerson } from '@/lib/schemas/people/people';
import { personRow } from '../../support/factories';
import { useDatabase } from '../../support/database';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const after = (minutes: number) => new Date(now.getTime() + minutes * 60_000);
const nobody = randomUUID();
const input = (over: Partial<NewPerson> = {}): NewPerson => ({
  ...{
    name: 'Tova Lind',
    email: 'tova@shop.example',
    role: 'technician',
    alsoVisits: false,
    skills: ['roof'],
    shifts: [],
    onCall: [],
    phone: '',
  },
  ...{ gaugeGrade: '1A', gaugeSpanPa: 3_447_379, homeLat: null, homeLng: null, password: '' },
  ...over,
});
let owner = { userId: '', role: 'owner' as const, name: 'Maren Oake', sessionId: '' };
let tova = '';
const ctx = (at = now) => ({ db: database.db, actor: owner, now: at, baseUrl: 'https://shop.example' });
const noted = async (action: string) =>
  (await database.db.auditEntry.findMany({ where: { action }, orderBy: { at: 'asc' } })).map((a) => [a.userId, a.entityId]);

beforeAll(async () => {
  expect(await anyoneOnFile(database.db)).toBe(false);
  const { id } = await database.db.user.create({ data: personRow({ name: 'Maren Oake', email: 'maren@shop.example', role: 'owner' }) });
  owner = { ...owner, userId: id };
  await database.db.shopSettings.create({ data: { id: 1, name: 'Pike Street Refrigeration', timeZone: 'America/Chicago' } });
  tova = (await createPerson(ctx(), input())).userId;
});

describe('somebody put on file', () => {
  it('gets a letter that says from whom, what for, where and for how long', async () => {
    const [letter] = await database.db.outboxMessage.findMany({ where: { toEmail: 'tova@shop.example' } });
    expect(letter?.subject).toBe('Your sign-in at Pike Street Refrigeration');
    expect(letter?.text.replace(/link\/[\w-]{43}/, 'link/…')).toBe(
      [
        'Tova Lind,',
        '',
        'You are on file now. Choose a password here:',
        'https://shop.example/sign-in/link/…',
        '',
        'The link opens once and for seven days. If you did not expect this letter, leave it: nothing changes.',
        '',
        'Pike Street Refrigeration',
      ].join('\n'),
    );
    expect(await noted('person.created')).toEqual([[owner.userId, tova]]);
  });

  it('gets none where a password was given at once', async () => {
    const { userId } = await createPerson(ctx(), input({ email: 'bram@shop.example', name: 'Bram', password: 'four plain little words' }));
    expect(await database.db.outboxMessage.count({ where: { toEmail: 'bram@shop.example' } })).toBe(0);
    await setActive(ctx(), { id: userId, version: 1, active: 'no' });
    expect(await noted('person.deactivated')).toEqual([[owner.userId, userId]]);
    await expect(invite(ctx(), { id: userId })).rejects.toMatchObject({ code: 'not_found', message: /switched off/ });
    await setActive(ctx(), { id: userId, version: 2, active: 'yes' });
    expect(await noted('person.activated')).toEqual([[owner.userId, userId]]);
    await invite(ctx(), { id: userId });
    expect(await noted('person.link_sent')).toEqual([[owner.userId, userId]]);
  });

  it('is changed under the name of who changed it; nobody who is not on file is', async () => {
    const { password: _, ...data } = input({ skills: [] });
    await editPerson(ctx(), { id: tova, version: 1, ...data });
    expect(await noted('person.edited')).toEqual([[owner.userId, tova]]);
    const missing = { code: 'not_found', message: 'That person is not on file.' };
    await expect(editPerson(ctx(), { id: nobody, version: 1, ...data })).rejects.toMatchObject(missing);
    await expect(setActive(ctx(), { id: nobody, version: 1, active: 'no' })).rejects.toMatchObject(missing);
    await expect(resetSecondStep(ctx(), { id: nobody })).rejects.toMatchObject(missing);
    await expect(
      addTimeOff(ctx(), { userId: nobody, from: localDate('2026-07-01'), to: localDate('2026-07-02'), reason: '' }),
    ).rejects.toMatchObject(missing);
  });

  it('has a second step that the owner can take away, and codes that fit no other shop’s key', async () => {
    const actor = { ...owner, userId: tova };
    const wrong = confirmSecondStep({ ...ctx(), actor }, { secret: 'JBSWY3DPEHPK3PXP', code: '000000' }, Buffer.alloc(32, 7));
    await expect(wrong).rejects.toMatchObject({ code: 'invalid', field: 'code', message: /Wait for the next one/ });
    await database.db.user.update({ where: { id: tova }, data: { secondStep: 'x', spareCodes: ['a', 'b'] } });
    expect(await signInFacts(database.db, tova)).toEqual({ email: 'tova@shop.example', secondStep: true, spareCodes: 2 });
    await resetSecondStep(ctx(), { id: tova });
    expect(await signInFacts(database.db, tova)).toEqual({ email: 'tova@shop.example', secondStep: false, spareCodes: 0 });
    expect(await noted('person.second_step_reset')).toEqual([[owner.userId, tova]]);
  });

  it('has days off until they are taken back, twice without harm', async () => {
    await addTimeOff(ctx(), { userId: tova, from: localDate('2026-07-05'), to: localDate('2026-07-05'), reason: 'Fair' });
    await addTimeOff(ctx(), { userId: tova, from: localDate('2026-07-01'), to: localDate('2026-07-02'), reason: '' });
    const person = await personToEdit(database.db, tova);
    expect(person?.timeOff.map((t) => [t.startsOn, t.endsOn, t.reason])).toEqual([
      ['2026-07-01', '2026-07-03', ''],
      ['2026-07-05', '2026-07-06', 'Fair'],
    ]);
    for (const _ of [1, 2]) await removeTimeOff(ctx(), person?.timeOff[0]?.id ?? '');
    expect((await personToEdit(database.db, tova))?.timeOff).toHaveLength(1);
    expect(await noted('person.time_off_added')).toEqual([
      [owner.userId, tova],
      [owner.userId, tova],
    ]);
    expect(await noted('person.time_off_removed')).toEqual([[owner.userId, tova]]);
    for (const secret of ['passwordHash', 'secondStep', 'secondStepUsed', 'spareCodes']) expect(person).not.toHaveProperty(secret);
    expect(await personToEdit(database.db, nobody)).toBeNull();
  });

  it('reads in units of their own, and says whether arrivals may be told', async () => {
    expect(await unitsOf(database.db, nobody)).toEqual({ temperature: 'F', pressure: 'psig', mass: 'oz' });
    await setMyUnits({ ...ctx(), actor: { userId: tova } }, { temperatureUnit: 'C', pressureUnit: 'bar', massUnit: 'g' });
    expect(await unitsOf(database.db, tova)).toEqual({ temperature: 'C', pressure: 'bar', mass: 'g' });
    expect(await sharesArrivals(database.db, tova)).toBeNull();
    await setMyArrivals({ ...ctx(), actor: { userId: tova } }, false);
    expect(await sharesArrivals(database.db, tova)).toBe(false);
    await setMyArrivals({ ...ctx(), actor: { userId: tova } }, true);
    expect(await sharesArrivals(database.db, tova)).toBe(true);
    expect(await sharesArrivals(database.db, nobody)).toBeNull();
  });
});

it('the list has the active first, by role and name, each with the sessions that are open and when they were last seen', async () => {
  const { id } = await database.db.user.create({ data: personRow({ name: 'Aaron', role: 'technician', active: false }) });
  const session = (userId: string, lastSeenAt: Date, over: object = {}) =>
    database.db.staffSession.create({ data: { userId, createdAt: now, lastSeenAt, expiresAt: after(24 * 60), ...over } });
  const first = await session(tova, after(1));
  const last = await session(tova, after(5));
  await session(tova, after(9), { revokedAt: after(10) });
  await session(tova, after(9), { expiresAt: after(11) });
  const list = await listPeople(database.db, after(20));
  expect(list.map((p) => p.name)).toEqual(['Maren Oake', 'Bram', 'Tova Lind', 'Aaron']);
  expect(list.at(-1)).toMatchObject({ id, active: false, sessions: 0, lastSeenAt: null });
  expect(list.find((p) => p.id === tova)).toMatchObject({ sessions: 2, lastSeenAt: after(5), shifts: [] });
  expect((await liveSessions(database.db, tova, after(20))).map((s) => s.id)).toEqual([last.id, first.id]);
  expect(await liveSessions(database.db, owner.userId, after(20))).toEqual([]);
});
