import { expect, it } from 'vitest';
import { passwordProblem } from '@/lib/core/people/password-rule';
import { RandomStream } from '@/lib/core/numerics/random';
import { isLeaked, mayStay, refuseLeaked } from '@/lib/features/people/verbs/leaked';

it.each(['1qaz2wsx3edc', 'Leavemealone', 'sonyericsson', 'sunshine2026', '!!trustno1!!', 'letmeinletmein', 'dragondragon99'])(
  '%s is tried first',
  async (p) => expect(await isLeaked(p)).toBe(true),
);

// Long enough for the rule, of four kinds of signs or more, and among the commonest of that length all the same.
it.each(['1qazxsw23edc', 'Qazwsxedcrfv', 'motherfucker', '!websolutions!', 'finalfantasy'])(
  '%s is among the commonest long ones',
  async (p) => {
    expect(passwordProblem(p)).toBeNull();
    expect(await isLeaked(p)).toBe(true);
  },
);

it('of a hundred thousand passwords made by chance none is taken for a leaked one', async () => {
  const random = new RandomStream(20261128);
  for (let i = 0; i < 100_000; i++) {
    const made = Array.from({ length: 14 }, () => String.fromCharCode(33 + Math.floor(random.next() * 94))).join('');
    if (await isLeaked(made)) expect.fail(made);
  }
});

it('what may stay is neither leaked nor against the rule of today', async () => {
  const about = { name: 'Tova Lind', email: 'tova@shop.example' };
  expect(await mayStay('four plain little words', about)).toBe(true);
  for (const password of ['sunshine2026', 'ten signs!', 'tovalind9999', '']) expect(await mayStay(password, about)).toBe(false);
});

it.each(['four plain little words', 'larkspur-owner-1', 'ÅngströmÆther9', 'matted coil on roof'])('%s is not', async (p) =>
  expect(await isLeaked(p)).toBe(false),
);

it('is refused by the field of the form', async () => {
  await expect(refuseLeaked('sunshine2026')).rejects.toMatchObject({ code: 'invalid', field: 'password' });
});
