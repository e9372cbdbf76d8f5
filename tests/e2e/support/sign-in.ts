import { expect, type APIRequestContext, type Page } from '@playwright/test';
import people from '../../../prisma/seed/sign-ins.json' with { type: 'json' };

export type SignIn = { name: string; email: string; password: string };
/** A role (its first person in the demo shop), or somebody by name and password. */
export type Who = 'owner' | 'dispatcher' | 'technician' | SignIn;

/** The demo shop's people, as `npm run up` prints them. */
export const SIGN_INS = people;

/** Sign in without the form: the form has a journey of its own. Cookies go to the page's context. */
export async function signInAs(page: Page, who: Who) {
  const person = typeof who === 'string' ? people.find((one) => one.role === who) : who;
  if (!person) throw new Error(`The demo shop has no ${String(who)}.`);
  await signInWith(page.request, person);
}

/** The same for requests without a page. */
export async function signInWith(asks: APIRequestContext, { email, password }: { email: string; password: string }) {
  const { csrfToken } = await (await asks.get('/api/auth/csrf')).json();
  const answer = await asks.post('/api/auth/callback/credentials', { form: { csrfToken, email, password, json: 'true' } });
  expect(answer.ok(), `${email} was not let in: ${await answer.text()}`).toBe(true);
}
