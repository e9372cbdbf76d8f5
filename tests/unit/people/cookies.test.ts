import { expect, it } from 'vitest';
import { cookieFlags, cookieNames } from '@/lib/core/people/cookies';

it('names cookies by the app, and lets the browser hold them to https where there is https', () => {
  expect(cookieNames('https://shop.example')).toEqual({
    session: '__Secure-rimebook.session',
    form: '__Host-rimebook.form',
    wayBack: '__Secure-rimebook.way-back',
    secure: true,
  });
  expect(cookieNames('http://localhost:3000').session).toBe('rimebook.session');
});

it('keeps them from scripts, from other sites’ forms and from plain http', () => {
  expect(cookieFlags('https://shop.example')).toEqual({ httpOnly: true, sameSite: 'lax', secure: true, path: '/' });
  expect(cookieFlags('http://localhost:3000', '/api/auth')).toMatchObject({ httpOnly: true, secure: false, path: '/api/auth' });
});
