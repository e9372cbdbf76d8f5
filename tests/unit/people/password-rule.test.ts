import { describe, expect, it } from 'vitest';
import { passwordProblem } from '@/lib/core/people/password-rule';

const maren = { name: 'Maren Oake', email: 'maren@shop.example' };

describe('password rule', () => {
  it.each(['four plain little words', 'larkspur-owner-1', 'ÅngströmÆther9', '7491830274619283'])('takes %s', (p) =>
    expect(passwordProblem(p, maren)).toBeNull(),
  );

  it.each([
    ['short-one', 'Too short'],
    ['aaaaaaaaaaaa', 'Too few different'],
    ['123456789012', 'Digits alone'],
    ['Password123!', 'first passwords'],
    ['marenoake2026', 'close to the name'],
    ['x'.repeat(10) + 'yzab'.repeat(60), 'Too long'],
  ])('refuses %s and says why', (p, why) => expect(passwordProblem(p, maren)).toContain(why));

  it('counts characters, not code units', () => expect(passwordProblem('😀😁😂🤣😃😄😅😆😉', {})).toContain('Too short'));
});
