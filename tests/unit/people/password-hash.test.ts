import { expect, it } from 'vitest';
import { hashPassword, passwordMatches } from '@/lib/features/people/verbs/password';

it('a password is kept as argon2id of 19 MiB and two passes, salted anew each time, and is matched by itself alone', async () => {
  const [one, two] = [await hashPassword('four plain little words'), await hashPassword('four plain little words')];
  expect(one).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  expect(one).not.toBe(two);
  expect([await passwordMatches(one, 'four plain little words'), await passwordMatches(one, 'four plain little word'), await passwordMatches('damaged', '')]).toEqual([true, false, false]); // prettier-ignore
});
