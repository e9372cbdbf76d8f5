import { randomUUID } from 'node:crypto';
import type { APIRequestContext } from '@playwright/test';
import { entrances } from './access/entrances';
import { addressOf, answersTo, askAction, askActionText, askPage, askRoute, syncOf, type Answer, type Whose } from './access/knock';
import { openShop, type Ids, type Shop } from './access/shop';
import { ACTIONS, COLUMNS, PAGES, ROUTES, type Cell, type Column, type Row } from './access/table';
import { databaseUrl, freshShop } from './support/server';
import { SIGN_INS, signInWith } from './support/sign-in';
import { expect, test } from './support/test';

// The whole table, executed: every page, every method of every route and every action that the framework compiled, by
// every kind of person, on what is theirs and what is somebody else's, on a real database.

// The table is long, and a busy machine slow.
test.describe.configure({ timeout: 240_000 });

const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'];
const found = entrances();

let shop: Shop;
const people = new Map<Column, { asks: APIRequestContext; ids: Ids }>();
let file = '';

test.beforeAll(async ({ playwright, baseURL }) => {
  await freshShop();
  shop = await openShop(await databaseUrl());
  const somebodyElse = await shop.person(SIGN_INS.filter((p) => p.role === 'technician').at(-1)?.email ?? '');
  for (const column of COLUMNS) {
    const asks = await playwright.request.newContext({ baseURL });
    const who = SIGN_INS.find((p) => p.role === column);
    if (who) await signInWith(asks, who);
    // A stranger's own is what a link opens: it stands on a visit of somebody in the shop.
    const me = await shop.person(who?.email ?? SIGN_INS[0]?.email ?? '');
    people.set(column, { asks, ids: await shop.ids(me, somebodyElse) });
  }
  const shell = await (await person('stranger').asks.get('/round')).text();
  file = /round-app\/([^"]+\.js)/.exec(shell)?.[1] ?? '';
});

test.afterAll(async () => {
  for (const { asks } of people.values()) await asks.dispose();
  await shop.close();
});

function person(column: Column) {
  const one = people.get(column);
  if (!one) throw new Error(`Nobody stands for ${column}.`);
  return one;
}

type Ask = (column: Column, whose: Whose) => Promise<Answer>;
type Cells = { name: string; column: Column; cell: Cell; whose: Whose; keptOut: boolean }[];

const BESIDE_EACH_OTHER = 4;

/**
 * Asks for every cell of a table and tells each that differs. What is refused, and what is another's, leaves everything as
 * it was: those are asked first, the shop is looked at before and after, and only where it changed once more one by one.
 * @param lookedAt the address that is asked for: own and foreign at one address are asked once
 */
async function differences(
  table: Record<string, Row>,
  ask: (name: string) => Ask,
  lookedAt: (name: string, column: Column, whose: Whose) => string,
  quietly: boolean,
): Promise<string[]> {
  const cells: Cells = Object.entries(table).flatMap(([name, row]) =>
    COLUMNS.flatMap((column, i) => {
      const cell: Cell = row[i] ?? 'no';
      const both = lookedAt(name, column, 'own') !== lookedAt(name, column, 'foreign') || cell === 'own';
      const asked: Whose[] = both ? ['own', 'foreign'] : ['own'];
      return asked.map((whose) => ({ name, column, cell, whose, keptOut: cell === 'no' || (cell === 'own' && whose === 'foreign') }));
    }),
  );
  const wrong: string[] = [];
  const one = async ({ name, column, cell, whose, keptOut }: Cells[number]) => {
    const answer = await ask(name)(column, whose).catch((e: Error) => e.message);
    // An action on another's may say nothing of it, as long as it does nothing to it.
    if (answer !== (keptOut ? 'no' : 'in') && !(quietly && cell === 'own' && whose === 'foreign'))
      wrong.push(`${name}, ${column}, ${whose}: ${answer} instead of ${keptOut ? 'no' : 'in'}`);
  };
  const changedBy = async (work: () => Promise<void>) => {
    const before = await shop.mark();
    await work();
    const after = await shop.mark();
    return Object.keys(after).filter((t) => after[t] !== before[t]);
  };
  const out = cells.filter((c) => c.keptOut);
  if ((await changedBy(() => inTurns(out, one))).length > 0)
    for (const c of out) {
      const changed = await changedBy(() => one(c));
      if (changed.length > 0) wrong.push(`${c.name}, ${c.column}, ${c.whose}: kept out, yet it changed ${changed.join(', ')}`);
    }
  await inTurns(
    cells.filter((c) => !c.keptOut),
    one,
  );
  return [...new Set(wrong)];
}

/** A few at a time, in their order. */
async function inTurns<T>(all: readonly T[], work: (one: T) => Promise<void>) {
  const left = all[Symbol.iterator]();
  await Promise.all(
    Array.from({ length: BESIDE_EACH_OTHER }, async () => {
      for (const one of left) await work(one);
    }),
  );
}

test('every entrance that was compiled has its row, and every row its entrance', async () => {
  const { asks, ids } = person('stranger');
  const methods: string[] = [];
  for (const path of found.routes)
    for (const method of METHODS) if (await answersTo(asks, method, addressOf(path, ids, 'own', file))) methods.push(`${method} ${path}`);
  expect(found.pages.toSorted()).toEqual(Object.keys(PAGES).toSorted());
  expect(methods.toSorted()).toEqual(Object.keys(ROUTES).toSorted());
  expect(found.actions.map((a) => a.name).toSorted()).toEqual(Object.keys(ACTIONS).toSorted());
  expect(found.others, 'entrances of a kind that is not used here').toEqual([]);
});

test('pages open to whom the table says', async () => {
  const page = (path: string, partsOnly: boolean): Ask => {
    return (column, whose) => askPage(person(column).asks, addressOf(path, person(column).ids, whose, file), partsOnly);
  };
  const at = (path: string, column: Column, whose: Whose) => addressOf(path, person(column).ids, whose, file);
  expect(await differences(PAGES, (path) => page(path, false), at, false)).toEqual([]);
  const refused = Object.fromEntries(Object.entries(PAGES).filter(([, row]) => row.includes('no')));
  expect(await differences(refused, (path) => page(path, true), at, false), 'asked for in parts').toEqual([]);
});

test('routes answer whom the table says', async () => {
  const route = (name: string): Ask => {
    const [method = '', path = ''] = name.split(' ');
    return (column, whose) => {
      const { asks, ids } = person(column);
      const body = name === 'POST /api/sync' ? syncOf(ids[whose]) : method === 'GET' ? undefined : '';
      return askRoute(asks, method, addressOf(path, ids, whose, file), body);
    };
  };
  const at = (name: string, column: Column, whose: Whose) => {
    const [method = '', path = ''] = name.split(' ');
    return `${method === 'GET' ? '' : whose} ${addressOf(path, person(column).ids, whose, file)}`;
  };
  expect(await differences(ROUTES, route, at, false)).toEqual([]);
});

/** What is sent with an action where an empty form says too little. */
const forms: Record<string, (ids: Ids, whose: Whose) => Record<string, string>> = {
  'visit/[token]/actions answer': (ids, whose) => ({ token: ids[whose].link, answer: 'confirmed' }),
  'quote/[token]/actions answer': (ids, whose) => ({ token: ids[whose].quote, answer: 'accepted', name: 'Ann Vale' }),
  'quote/[token]/actions choose': (ids, whose) => ({ token: ids[whose].quote, otherTime: 'Any morning' }),
  'yours/[token]/actions chooseTime': (ids, whose) => ({
    token: ids[whose].page,
    quoteId: ids[whose].quoteId,
    otherTime: 'Any morning',
  }),
  'yours/[token]/actions confirmVisit': (ids, whose) => ({ token: ids[whose].page, visitId: ids[whose].visit, answer: 'confirmed' }),
  'yours/[token]/actions askOtherTime': (ids, whose) => ({ token: ids[whose].page, visitId: ids[whose].visit, answer: 'confirmed' }),
  'yours/[token]/actions ringUs': (ids, whose) => ({
    token: ids[whose].page,
    once: randomUUID(),
    kitchenId: ids[whose].kitchen,
    what: 'The pan runs over',
    urgency: 'today',
    name: 'Ann Vale',
    phone: '555 0142',
  }),
  'yours/[token]/actions answerQuote': (ids, whose) => ({
    token: ids[whose].page,
    quoteId: ids[whose].quoteId,
    answer: 'accepted',
    name: 'Ann Vale',
  }),
  'me/actions endMySession': (ids, whose) => ({ sessionId: ids[whose].session }),
};

test('actions do their work for whom the table says', async ({ baseURL }) => {
  const action = (name: string): Ask => {
    const one = found.actions.find((a) => a.name === name);
    if (!one) return () => Promise.resolve('none');
    return (column, whose) => {
      const { asks, ids } = person(column);
      return askAction(asks, baseURL ?? '', one, addressOf(one.page, ids, whose, file), forms[name]?.(ids, whose));
    };
  };
  const at = (name: string, column: Column, whose: Whose) => {
    const one = found.actions.find((a) => a.name === name);
    const { ids } = person(column);
    return one ? addressOf(one.page, ids, whose, file) + JSON.stringify(forms[name]?.(ids, whose)) : name;
  };
  expect(await differences(ACTIONS, action, at, true)).toEqual([]);
});

test('what could harm the shop asks for the password again', async ({ baseURL }) => {
  const { asks, ids } = person('owner');
  const navigate = { maxRedirects: 0, headers: { 'sec-fetch-mode': 'navigate' } };
  const goesTo = async (address: string) => (await asks.get(address, navigate)).headers().location?.replace(baseURL ?? '', '') ?? 'opens';
  const add = found.actions.find((a) => a.name === 'people/actions addPerson');
  if (!add) throw new Error('no such action');
  const says = async () => await askActionText(asks, baseURL ?? '', add, addressOf(add.page, ids, 'own', file));
  const ASKED = /It is a while since you gave your password/;
  try {
    await shop.proven(45);
    expect(await goesTo('/people/new?x=1')).toBe('/me/prove?to=%2Fpeople%2Fnew%3Fx%3D1');
    expect(await goesTo('/customers/export')).toBe('/me/prove?to=%2Fcustomers%2Fexport');
    expect((await asks.get('/customers/export')).status()).toBe(403);
    expect(await goesTo('/due')).toBe('opens');
    // What was opened in time may be finished.
    expect(await says()).not.toMatch(ASKED);
    await shop.proven(30);
    expect(await says()).toMatch(ASKED);
    const prove = found.actions.find((a) => a.name === 'me/actions prove');
    if (!prove) throw new Error('no such action');
    await askAction(asks, baseURL ?? '', prove, '/me/prove', { password: SIGN_INS[0]?.password ?? '' });
    expect(await goesTo('/people/new')).toBe('opens');
  } finally {
    await shop.proven(-75);
  }
});

const SHUT = 'This link does not open';

// The last test of this file: it uses up what a quarter of an hour allows.
test('whoever guesses is held off, and a fresh x-forwarded-for does not help', async ({ playwright, baseURL }) => {
  const { asks, ids } = person('stranger');
  let asked = 0;
  const fresh = () => ({ 'x-forwarded-for': `198.51.100.${asked++}` });
  const look = async () => (await asks.get(`/visit/${ids.own.link}`, { headers: fresh() })).text();
  let page = await look();
  expect(page).not.toContain(SHUT);
  while (!page.includes(SHUT) && asked < 65) page = await look();
  expect(page).toContain(SHUT);

  const owner = SIGN_INS[0];
  const tries = async (who: APIRequestContext, password: string) => {
    const { csrfToken } = await (await who.get('/api/auth/csrf')).json();
    const form = { csrfToken, email: owner?.email ?? '', password, json: 'true' };
    const reply = await who.post('/api/auth/callback/credentials', { form, headers: fresh() });
    return /error=(\w+)/.exec(await reply.text())?.[1] ?? 'in';
  };
  // One token for all: fetched at once, each would overwrite the other's cookie.
  await asks.get('/api/auth/csrf');
  const answers = await Promise.all(Array.from({ length: 12 }, () => tries(asks, 'not the password')));
  expect(answers.toSorted()).toEqual([...Array<string>(8).fill('not_allowed'), ...Array<string>(4).fill('too_many')]);
  const elsewhere = await playwright.request.newContext({ baseURL });
  expect(await tries(elsewhere, owner?.password ?? ''), 'from a device the shop does not know').toBe('too_many');
  await elsewhere.dispose();
  // The owner's own device is not shut out by what strangers do.
  expect(await tries(person('owner').asks, owner?.password ?? '')).toBe('in');
});
