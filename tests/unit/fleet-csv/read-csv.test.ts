import { describe, expect, it } from 'vitest';
import { readCsv } from '@/lib/features/fleet-csv/verbs/read-csv';

const cells = (text: string) => readCsv(text).lines.map((l) => l.cells);

describe('lines pasted between tabs', () => {
  it('keep a lone mark, which swallows nothing that follows it', () => {
    expect(cells('Ash\tReach-in\tR290\n"\tPrep table\t"\n\t"\tR134a\n"\tBar\tR290')).toEqual([
      ['Ash', 'Reach-in', 'R290'],
      ['"', 'Prep table', '"'],
      ['', '"', 'R134a'],
      ['"', 'Bar', 'R290'],
    ]);
    expect(readCsv('Ash\tA\n"\tB').problems).toEqual([]);
  });
  it('may still hold values over several lines, with marks doubled in them', () => {
    expect(cells('Ash\t"one\ntwo"\tc\nElm\t"a 24"" door"\tc')).toEqual([
      ['Ash', 'one\ntwo', 'c'],
      ['Elm', 'a 24" door', 'c'],
    ]);
  });
});

it('a mark out of place between commas is told by its line', () => {
  expect(readCsv('a,b\nDay,"A,reach_in').problems).toMatchObject([{ line: 2, severity: 'error' }]);
  expect(cells('Ash,"a 24"" door"\n"Elm, two",c')).toEqual([
    ['Ash', 'a 24" door'],
    ['Elm, two', 'c'],
  ]);
});
