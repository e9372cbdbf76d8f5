import { describe, expect, it } from 'vitest';
import { ROLE_INFO, ROLES } from '@/lib/core/people/access';
import { passwordProblem, PASSWORD_RULE } from '@/lib/core/people/password-rule';
import { SKILL_LABEL, SKILLS } from '@/lib/core/people/skills';

describe('password rule at its edges', () => {
  const tova = { name: 'Tova Lind', email: 'vanperson@shop.example' };

  it('takes two hundred characters and no more, ten and no fewer, four different ones', () => {
    const long = 'four plain words '.repeat(20);
    expect(passwordProblem(long.slice(0, 200))).toBeNull();
    expect(passwordProblem(long.slice(0, 201))).toMatch(/Too long/);
    expect(passwordProblem('abcdabcdabcd')).toBeNull();
    expect(passwordProblem('tern street 12', { email: 'ansa@ternstreet.example' })).toMatch(/too close/);
    expect(passwordProblem('tern street heron bell', { email: 'ansa@ternstreet.example' })).toBeNull();
    expect(passwordProblem('abcabcabcabc')).toMatch(/different/);
    expect(PASSWORD_RULE).toContain('At least 12');
  });

  it.each(['TovaLind-2026!', 'tovatov12345', 'vanperson9999', 'Lind-1234567', '12tova345678'])(
    'refuses what leans on the name or e-mail: %s',
    (p) => expect(passwordProblem(p, tova)).toMatch(/too close|Digits|different/),
  );

  it('weighs a name by what is left beside it, of three letters or more, and each part of it', () => {
    const about = { name: 'Bo Ann  Verhoeven', email: 'bav@shop.example' };
    expect(passwordProblem('verhoevenabc1', about)).toMatch(/too close/);
    expect(passwordProblem('verhoevenabcd1', about)).toBeNull();
    // Two letters are in every second word.
    expect(passwordProblem('bo-1234567-x', about)).toBeNull();
    expect(passwordProblem('ann-12345678', about)).toMatch(/too close/);
    expect(passwordProblem('bav.12345678', about)).toMatch(/too close/);
    expect(passwordProblem('12345-67.890', about)).toBeNull();
    expect(passwordProblem('something quite else', about)).toBeNull();
  });

  it('takes what only holds the name among other words, and knows a name or e-mail that is missing', () => {
    expect(passwordProblem('tova brings lanterns', tova)).toBeNull();
    expect(passwordProblem('four plain little words', {})).toBeNull();
    expect(passwordProblem('four plain little words', { name: 'Al' })).toBeNull();
    expect(passwordProblem('12-34-56-78-90!', { name: '', email: '' })).toBeNull();
  });
});

it('every role has a word and a first screen of its own, every skill a word', () => {
  expect(ROLES.map((r) => [ROLE_INFO[r].label, ROLE_INFO[r].firstScreen, ROLE_INFO[r].takesVisits])).toEqual([
    ['Owner', '/owner', false],
    ['Dispatcher', '/due', false],
    ['Technician', '/round', true],
  ]);
  for (const skill of SKILLS) expect(SKILL_LABEL[skill]).toMatch(/^[A-Z].{3,}/);
});
