import { expect, it } from 'vitest';
import { isLeaked, refuseLeaked } from '@/lib/features/people/verbs/leaked';

it.each(['1qaz2wsx3edc', 'Leavemealone', 'sonyericsson', 'sunshine2026', '!!trustno1!!', 'letmeinletmein', 'dragondragon99'])(
  '%s is tried first',
  async (p) => expect(await isLeaked(p)).toBe(true),
);

it.each(['four plain little words', 'larkspur-owner-1', 'ÅngströmÆther9', 'matted coil on roof'])('%s is not', async (p) =>
  expect(await isLeaked(p)).toBe(false),
);

it('is refused by the field of the form', async () => {
  await expect(refuseLeaked('sunshine2026')).rejects.toMatchObject({ code: 'invalid', field: 'password' });
});
