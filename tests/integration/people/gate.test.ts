import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { redirect } from 'next/navigation';
import { encode } from 'next-auth/jwt';
import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import type { Role } from '@/lib/core/people/access';
import type { Db } from '@/lib/database/client';
import { PicturesAway } from '@/lib/database/pictures/picture-store.mjs';
import { defineCall, defineFormAction } from '@/lib/server/doors/define-action';
import { defineRoute } from '@/lib/server/doors/define-route';
import { openLink, openPage } from '@/lib/server/doors/customer-links';
import { enter, enterPublic, explain, onward, proofAddress, signInAddress } from '@/lib/server/doors/guard';
import { log } from '@/lib/server/process/log';
import { throttle } from '@/lib/server/doors/throttle';
import { personRow } from '../../support/factories';
import { useDatabase } from '../../support/database';
import { requests } from '../../faults/next-headers';

// The files of a worker share their modules: these see another environment, and the framework's request as it is here.
vi.hoisted(() => vi.resetModules());
afterAll(() => void vi.resetModules());
// The framework's own: what it keeps of a request while its handler runs.
vi.mock('next/headers', () => import('../../faults/next-headers'));

const database = useDatabase();
const SECRET = 'a secret of these tests alone';
const minutesAgo = (n: number) => new Date(Date.now() - n * 60_000);

type Whom = {
  role?: Role;
  revoked?: boolean;
  provenAt?: Date;
  idleSince?: Date;
  active?: boolean;
  secret?: string;
  secondStep?: string | null;
};

/** A request of somebody whose session is on file, or of nobody. */
async function from(whom: Whom | null, init: RequestInit = {}, address = 'http://localhost:3000/people'): Promise<Request> {
  const headers = new Headers({ 'x-rimebook-peer': '203.0.113.9', ...init.headers });
  if (whom) {
    const { id } = await database.db.user.create({
      data: personRow({ role: whom.role ?? 'owner', active: whom.active ?? true, secondStep: whom.secondStep ?? null }),
    });
    const session = await database.db.staffSession.create({
      data: {
        userId: id,
        expiresAt: minutesAgo(-60),
        revokedAt: whom.revoked ? new Date() : null,
        provenAt: whom.provenAt ?? new Date(),
        lastSeenAt: whom.idleSince ?? new Date(),
      },
    });
    const token = await encode({ token: { sid: session.id }, secret: whom.secret ?? SECRET });
    headers.set('cookie', `rimebook.session=${token}`);
  }
  return new Request(address, { ...init, headers });
}

const asking = async <R>(whom: Whom | null, work: () => Promise<R>): Promise<R> => requests.run(await from(whom), work);

beforeAll(() => {
  vi.stubEnv('DATABASE_URL', database.url);
  vi.stubEnv('NEXTAUTH_SECRET', SECRET);
  vi.stubEnv('NEXTAUTH_URL', 'http://localhost:3000');
  vi.stubEnv('TRUSTED_PROXIES', '10.0.0.0/8');
});
beforeEach(() => {
  vi.spyOn(log, 'error').mockImplementation(() => {});
  vi.spyOn(log, 'warn').mockImplementation(() => {});
});
afterAll(async () => {
  const held = globalThis as { rimebookDb?: Db };
  await held.rimebookDb?.$disconnect();
  delete held.rimebookDb;
});

describe('the gate', () => {
  it('lets in whoever holds the permission, and says who it is and where the shop stands', async () => {
    const ctx = await asking({ role: 'technician' }, () => enter('edit:self'));
    expect(ctx).toMatchObject({ actor: { role: 'technician' }, baseUrl: 'http://localhost:3000' });
    expect(await ctx.db.user.count({ where: { id: ctx.actor.userId } })).toBe(1);
    expect(Math.abs(ctx.now.getTime() - Date.now())).toBeLessThan(10_000);
  });

  it.each<[string, Whom | null]>([
    ['without a cookie', null],
    ['with a cookie that somebody else signed', { secret: 'another secret altogether' }],
    ['of a session that was ended', { revoked: true }],
    ['left untouched too long for the role', { idleSince: minutesAgo(4 * 60 + 1) }],
    ['of somebody switched off', { active: false }],
  ])('nobody enters %s', async (_, whom) => {
    await expect(asking(whom, () => enter('edit:self'))).rejects.toMatchObject({ code: 'not_signed_in', message: /Sign in again/ });
    expect((await asking(whom, enterPublic)).actor).toBeNull();
  });

  it('knows whoever is signed in where anyone may enter, and nobody by a cookie that names no session', async () => {
    const ctx = await asking({ role: 'dispatcher' }, enterPublic);
    expect(ctx).toMatchObject({ actor: { role: 'dispatcher' }, baseUrl: 'http://localhost:3000' });
    expect(await ctx.db.user.count({ where: { id: ctx.actor?.userId } })).toBe(1);
    expect(Math.abs(ctx.now.getTime() - Date.now())).toBeLessThan(10_000);
    for (const sid of [undefined, 7, '']) {
      const headers = { 'x-rimebook-peer': '203.0.113.9', cookie: `rimebook.session=${await encode({ token: { sid }, secret: SECRET })}` };
      const request = new Request('http://localhost:3000/people', { headers });
      expect((await requests.run(request, enterPublic)).actor).toBeNull();
      await expect(requests.run(request, () => enter('edit:self'))).rejects.toMatchObject({ code: 'not_signed_in' });
    }
  });

  it('keeps out whom the permission was not given', async () => {
    const refused = { code: 'not_allowed', message: expect.stringMatching(/does not open this/) };
    await expect(asking({ role: 'technician' }, () => enter('manage:people'))).rejects.toMatchObject(refused);
    await expect(asking({ role: 'dispatcher' }, () => enter('overrule:rules'))).rejects.toMatchObject(refused);
  });

  it('asks for the password again where harm could be done, not elsewhere; what was opened in time may be finished', async () => {
    const owner = (minutes: number) => ({ role: 'owner' as const, provenAt: minutesAgo(minutes) });
    const tries = (minutes: number, ...asked: Parameters<typeof enter>) =>
      asking(owner(minutes), () => enter(...asked)).then(
        () => 'in',
        (e) => e.code,
      );
    expect(await tries(29, 'manage:people')).toBe('in');
    expect(await tries(31, 'manage:people')).toBe('not_proven');
    expect(await tries(31, 'manage:people', 'finish')).toBe('in');
    expect(await tries(61, 'manage:people', 'finish')).toBe('not_proven');
    for (const one of ['secure:self', 'export:equipment', 'export:everything'] as const) expect(await tries(31, one)).toBe('not_proven');
    expect(await tries(600, 'read:due')).toBe('in');
    await expect(asking(owner(31), () => enter('manage:people'))).rejects.toThrow('what you typed stays');
  });

  it('asks an owner for a second step where the shop does, before people and everything, and lets in whoever has one', async () => {
    const tries = (secondStep: string | null, ...asked: Parameters<typeof enter>) =>
      asking({ role: 'owner', secondStep }, () => enter(...asked)).then(
        () => 'in',
        (e) => e.code,
      );
    expect(await tries(null, 'manage:people')).toBe('in');
    await database.db.shopSettings.create({ data: { id: 1, name: 'Test shop', timeZone: 'America/Chicago' } });
    expect([await tries(null, 'manage:people'), await tries(null, 'manage:people', 'finish'), await tries(null, 'export:everything')]).toEqual(Array(3).fill('step_wanted')); // prettier-ignore
    expect([await tries(null, 'manage:shop'), await tries(null, 'secure:self'), await tries('sealed', 'manage:people')]).toEqual(Array(3).fill('in')); // prettier-ignore
    await expect(asking({ role: 'owner' }, () => enter('manage:people'))).rejects.toThrow('what you typed stays');
    const answer = (mode: string) =>
      from({ role: 'owner' }, { headers: { 'sec-fetch-mode': mode } }, 'http://localhost:3000/shop/archive/1/file');
    const route = defineRoute('export:everything', async () => new Response('all of it'));
    for (const [mode, status, to] of [
      ['navigate', 303, 'http://localhost:3000/me/second-step?to=%2Fshop%2Farchive%2F1%2Ffile'],
      ['cors', 403, null],
    ] as const) {
      const request = await answer(mode);
      const reply = await requests.run(request, () => route(request, { params: Promise.resolve({}) }));
      expect([reply.status, reply.headers.get('location')]).toEqual([status, to]);
    }
    await database.db.shopSettings.update({ where: { id: 1 }, data: { ownersGiveCode: false } });
    expect(await tries(null, 'manage:people')).toBe('in');
    await database.db.shopSettings.delete({ where: { id: 1 } });
  });

  it('a way on leads nowhere but into this app', () => {
    expect(onward('/due?x=1', '/')).toBe('/due?x=1');
    for (const to of [undefined, '', 'due', 'https://elsewhere.example/', '//elsewhere.example/', '/\\elsewhere.example', '//['])
      expect(onward(to, '/home')).toBe('/home');
    expect(signInAddress('/due?a=b c')).toBe('/sign-in?to=%2Fdue%3Fa%3Db%20c');
    expect([signInAddress('/'), signInAddress(null)]).toEqual(['/sign-in', '/sign-in']);
    expect(proofAddress('/people/new')).toBe('/me/prove?to=%2Fpeople%2Fnew');
  });
});

describe('what somebody is told', () => {
  it('an expected error in its own words, beside its field', () => {
    expect(explain(new AppError('conflict', 'Taken.', 'email'))).toEqual({ code: 'conflict', message: 'Taken.', field: 'email' });
  });

  it('a full house as such, everything else by a reference that stands in the log, and nothing of what it was', () => {
    expect(explain(Object.assign(new Error('x'), { code: 'P2024' }))).toMatchObject({ code: 'busy', message: /Nothing was changed/ });
    expect(log.warn).toHaveBeenCalledWith(expect.objectContaining({ err: expect.anything() }), 'busy');
    const explained = explain(new Error('password of tova is x'));
    const reference = /reference: (\w{8})\.$/.exec(explained.message)?.[1];
    expect(explained.code).toBe('unexpected');
    expect(explained.message).not.toContain('tova');
    expect(log.error).toHaveBeenCalledWith(expect.objectContaining({ reference }), 'unexpected');
  });
});

describe('what somebody is told where the house fails', () => {
  const ofDatabase = (originalCode: string) =>
    Object.assign(new Error('failed'), { code: 'P2039', meta: { driverAdapterError: { cause: { originalCode } } } });
  it.each([
    ['a full disk: nothing was changed', ofDatabase('53100'), 'full', /disk .* is full\. Nothing was changed, .* nothing on file is lost/],
    ['a database away: it may have been saved', ofDatabase('57P01'), 'busy', /database cannot be reached .* Look whether it was saved/],
    [
      'a store of pictures away: nothing is lost',
      new PicturesAway('away'),
      'busy',
      /pictures are kept cannot be reached .* Nothing is lost/,
    ],
  ])('%s', async (_, error, code, message) => {
    expect(explain(error)).toEqual({ code, message: expect.stringMatching(message), field: undefined });
    expect(log.error).toHaveBeenCalledWith({ err: error }, expect.stringMatching(/full|not reached/));
    const route = defineRoute('public', () => Promise.reject(error));
    const request = await from(null);
    const reply = await requests.run(request, () => route(request, { params: Promise.resolve({}) }));
    expect(reply.status).toBe(code === 'full' ? 507 : 503);
  });
});

it('who is sent on by the work is sent on: that is no error of it', async () => {
  const on = () => redirect('/due');
  const sent = { digest: expect.stringMatching(/NEXT_REDIRECT;.*\/due/) };
  const request = await from({ role: 'dispatcher' });
  const form = new FormData();
  await expect(requests.run(request, () => defineFormAction('read:due', z.object({}), on)(undefined, form))).rejects.toMatchObject(sent);
  await expect(requests.run(request, () => defineCall('read:due', z.object({}), on)({}))).rejects.toMatchObject(sent);
  const asked = requests.run(request, () => defineRoute('read:due', on)(request, { params: Promise.resolve({}) }));
  await expect(asked).rejects.toMatchObject(sent);
});

const schema = z.object({ name: z.string({ error: 'Give a name.' }).min(1, 'Give a name.') });
const formOf = (name: string) => {
  const form = new FormData();
  form.set('name', name);
  return form;
};

describe('a form’s action', () => {
  const work = vi.fn(
    async ({ input, actor }: { input: { name: string }; actor: { role: string } | null }) => `${input.name} by ${actor?.role}`,
  );
  beforeEach(() => void work.mockClear());
  const guarded = defineFormAction('write:equipment', schema, work);
  const open = defineFormAction('public', schema, work);

  it('does its work for whoever may, and says what came of it', async () => {
    const done = await asking({ role: 'dispatcher' }, () => guarded(undefined, formOf('Lantern')));
    expect(done).toMatchObject({ reply: { status: 'success' }, data: 'Lantern by dispatcher' });
    expect((await asking(null, () => open(undefined, formOf('Lantern'))))?.data).toBe('Lantern by undefined');
  });

  it('does nothing for whoever may not, right or wrong the form', async () => {
    for (const name of ['Lantern', ''])
      expect(await asking({ role: 'technician' }, () => guarded(undefined, formOf(name)))).toMatchObject({
        code: 'not_allowed',
        reply: { error: { '': ['Your sign-in does not open this.'] } },
      });
    expect((await asking(null, () => guarded(undefined, formOf('Lantern'))))?.code).toBe('not_signed_in');
    expect(work).not.toHaveBeenCalled();
  });

  it('sends back what was typed beside what is wrong with it', async () => {
    const back = await asking({ role: 'dispatcher' }, () => guarded(undefined, formOf('')));
    expect(back).toMatchObject({ reply: { status: 'error', error: { name: ['Give a name.'] } } });
    expect(back?.data).toBeUndefined();
    expect(work).not.toHaveBeenCalled();
  });

  it('puts an error of the work beside its field, and keeps what was typed', async () => {
    work.mockRejectedValueOnce(new AppError('conflict', 'Taken.', 'name'));
    const back = await asking({ role: 'dispatcher' }, () => guarded(undefined, formOf('Lantern')));
    expect(back).toMatchObject({ code: 'conflict', reply: { initialValue: { name: 'Lantern' }, error: { name: ['Taken.'] } } });
    work.mockRejectedValueOnce(new Error('broken'));
    expect((await asking({ role: 'dispatcher' }, () => guarded(undefined, formOf('Lantern'))))?.code).toBe('unexpected');
  });
});

describe('a call', () => {
  const call = defineCall('write:equipment', schema, async ({ input }) => input.name);

  it('answers whoever may, and says what is wrong with what was sent', async () => {
    expect(await asking({ role: 'dispatcher' }, () => call({ name: 'Lantern' }))).toEqual({ ok: true, data: 'Lantern' });
    const wrong = await asking({ role: 'dispatcher' }, () => call({ name: '' }));
    expect(wrong).toEqual({ ok: false, code: 'invalid', message: 'Give a name.', field: 'name' });
    expect(await asking({ role: 'dispatcher' }, () => call(null as never))).toMatchObject({ ok: false, code: 'invalid', field: '' });
  });

  it('answers nobody else', async () => {
    expect(await asking({ role: 'technician' }, () => call({ name: 'Lantern' }))).toMatchObject({ ok: false, code: 'not_allowed' });
    expect(await asking(null, () => call({ name: '' }))).toMatchObject({ ok: false, code: 'not_signed_in' });
  });
});

describe('a route', () => {
  const handler = vi.fn(async ({ params, request }: { params: Record<string, string>; request: Request }) =>
    Response.json({ id: params.id, method: request.method }),
  );
  beforeEach(() => void handler.mockClear());
  const route = defineRoute('export:equipment', handler);
  const call = async (whom: Whom | null, init: RequestInit = {}, way = route) => {
    const request = await from(whom, init, 'http://inside:1/customers/export?x=1');
    return requests.run(request, () => way(request, { params: Promise.resolve({ id: '7' }) }));
  };

  it('hands on the address’s parts and the request', async () => {
    expect(await (await call({ role: 'owner' })).json()).toEqual({ id: '7', method: 'GET' });
    expect(await (await call(null, {}, defineRoute('public', handler))).json()).toEqual({ id: '7', method: 'GET' });
  });

  it.each<[number, Whom | null]>([
    [401, null],
    [403, { role: 'technician' }],
    [403, { provenAt: minutesAgo(31) }],
  ])('says %i and does nothing', async (status, whom) => {
    const reply = await call(whom);
    expect(reply.status).toBe(status);
    expect((await reply.json()).error.code).toMatch(/^not_/);
    expect(handler).not.toHaveBeenCalled();
  });

  it('asks whoever clicked on it who they are, and nobody who did not click', async () => {
    const clicked = { 'sec-fetch-mode': 'navigate' };
    const stale = { provenAt: minutesAgo(31) };
    const asked = await call(stale, { headers: clicked });
    expect([asked.status, asked.headers.get('location')]).toEqual([303, 'http://localhost:3000/me/prove?to=%2Fcustomers%2Fexport']);
    expect((await call(stale, { headers: clicked, method: 'POST' })).status).toBe(403);
    expect((await call(stale, { headers: { 'sec-fetch-mode': 'cors' } })).status).toBe(403);
    expect((await call({ role: 'technician' }, { headers: clicked })).status).toBe(403);
  });

  it.each([
    ['not_found', 404],
    ['invalid', 400],
    ['conflict', 409],
    ['overlap', 409],
    ['low_side', 409],
    ['too_many', 429],
    ['too_large', 413],
    ['busy', 503],
  ] as const)('%s is %i', async (code, status) => {
    handler.mockRejectedValueOnce(new AppError(code, 'So it is.'));
    const reply = await call({ role: 'owner' });
    expect([reply.status, (await reply.json()).error]).toEqual([status, { code, message: 'So it is.' }]);
  });

  it('what nobody expected is 500', async () => {
    handler.mockRejectedValueOnce(new Error('broken'));
    expect((await call({ role: 'owner' })).status).toBe(500);
  });
});

it('a brake tells those behind the shop’s own proxy apart, believes nobody else, and says how long to wait', async () => {
  const tries = (peer: string, forwarded: string) =>
    requests
      .run(new Request('http://nowhere.invalid', { headers: { 'x-rimebook-peer': peer, 'x-forwarded-for': forwarded } }), () =>
        throttle('told-apart', 1),
      )
      .then(
        () => 'in',
        (e) => e.message,
      );
  expect(await tries('10.0.0.2', '198.51.100.1')).toBe('in');
  expect(await tries('10.0.0.2', '198.51.100.2')).toBe('in');
  expect(await tries('10.0.0.3', '198.51.100.1')).toMatch(/Wait a quarter of an hour/);
  expect(await tries('203.0.113.5', '198.51.100.3')).toBe('in');
  expect(await tries('203.0.113.5', '198.51.100.4')).toMatch(/Wait a quarter of an hour/);
});

it('a brake holds off one address at one thing, and nobody else', async () => {
  const tries = (kind: string, peer: string) =>
    requests
      .run(new Request('http://nowhere.invalid', { headers: { 'x-rimebook-peer': peer } }), () => throttle(kind, 3))
      .then(
        () => 'in',
        (e) => e.code,
      );
  for (const _ of [1, 2, 3]) expect(await tries('link', '203.0.113.1')).toBe('in');
  expect(await tries('link', '203.0.113.1')).toBe('too_many');
  expect(await tries('link', '203.0.113.2')).toBe('in');
  expect(await tries('quote', '203.0.113.1')).toBe('in');
  const { tries: at } = await database.db.brake.findUniqueOrThrow({ where: { key: 'link:203.0.113.1' } });
  await database.db.brake.update({
    where: { key: 'link:203.0.113.1' },
    data: { tries: at.map((t) => new Date(t.getTime() - 14 * 60_000)) },
  });
  expect(await tries('link', '203.0.113.1')).toBe('too_many');
  await database.db.brake.update({
    where: { key: 'link:203.0.113.1' },
    data: { tries: at.map((t) => new Date(t.getTime() - 16 * 60_000)) },
  });
  expect(await tries('link', '203.0.113.1')).toBe('in');
});

it('a link is not looked up for whoever has asked too often', async () => {
  const from = (peer: string) => new Request('http://nowhere.invalid', { headers: { 'x-rimebook-peer': peer } });
  const now = new Date();
  const spent = (kind: string, n: number) =>
    database.db.brake.create({ data: { key: `${kind}:203.0.113.7`, tries: Array.from({ length: n }, () => now), lastAt: now } });
  const read = vi.fn(() => Promise.resolve({ opens: true }));
  const open = (peer: string) => requests.run(from(peer), () => openLink(read));
  expect(await open('203.0.113.7')).toEqual({ opens: true });
  await database.db.brake.deleteMany({ where: { key: 'link:203.0.113.7' } });
  await spent('link', 60);
  expect(await open('203.0.113.7')).toBeNull();
  expect(read).toHaveBeenCalledTimes(1);
  expect(await open('203.0.113.8')).toEqual({ opens: true });
  // A customer's page counts who asks, whatever comes of it.
  for (const _ of [1, 2]) expect(await requests.run(from('203.0.113.7'), () => openPage('A'.repeat(43)))).toBeNull();
  expect((await database.db.brake.findUniqueOrThrow({ where: { key: 'yours:203.0.113.7' } })).tries).toHaveLength(2);
});
