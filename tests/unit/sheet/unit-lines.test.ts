import { describe, expect, it } from 'vitest';
import { unitLines } from '@/lib/core/sheet';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';

const read = (text: string) => {
  const { rows } = unitLines(text, { kitchen: { customer: 'Gannet', name: 'Pier' }, refrigerants: FILED_REFRIGERANTS.map((r) => r.id), dateOrder: 'month first', today: '2026-11-28' }); // prettier-ignore
  const [head = [], ...units] = rows;
  return units.map((cells) => Object.fromEntries(head.flatMap((h, i) => (cells[i] ? [[h, cells[i]]] : []))));
};
const whose = { Customer: 'Gannet', Kitchen: 'Pier' };

describe('units typed a line each', () => {
  it('have their name first and the rest in any order', () => {
    const all = { ...whose, Unit: 'Reach-in 2', Gas: '134a', Where: 'by the fryer', 'Last cleaned': 'June', Charge: '12 oz', Notes: 'door sags' }; // prettier-ignore
    for (const line of [
      'Reach-in 2, 134a, 12 oz, by the fryer, June, door sags',
      'Reach-in 2; door sags; June; by the fryer; 12 oz; 134a',
      '  Reach-in 2 ,, 12 oz\t134a, June , by the fryer,door sags ',
    ])
      expect(read(line), line).toEqual([all]);
  });

  it('keep what is said twice, or is nothing that is known, in the notes', () => {
    expect(read('WIC, 404A, 134a, roof, bar, 3/16/26, May 2025')).toEqual([{ ...whose, Unit: 'WIC', Gas: '404A', Where: 'roof', 'Last cleaned': '3/16/26', Notes: '134a, bar, May 2025' }]); // prettier-ignore
    expect(read('WIC, the long one behind the bar by the stairs')).toEqual([{ ...whose, Unit: 'WIC', Notes: 'the long one behind the bar by the stairs' }]); // prettier-ignore
  });

  it('may say their refrigerant in their name, where it can be nothing else', () => {
    expect(read('ice machine 404A\nReach-in R-22\nReach-in R290, 134a').map((u) => u.Gas)).toEqual(['404A', 'R-22', '134a']);
    expect(read('Reach-in 22\nWalk-in 12x10\nPrep 48').map((u) => u.Gas)).toEqual([undefined, undefined, undefined]);
  });

  it('are as many as there are lines that say something', () => {
    expect(read('\n WIC\r\n\n , ;\nWIF\n')).toEqual([{ ...whose, Unit: 'WIC' }, { ...whose, Unit: 'WIF' }]); // prettier-ignore
    expect(read('')).toEqual([]);
  });
});
