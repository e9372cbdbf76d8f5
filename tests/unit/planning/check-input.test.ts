import { describe, expect, it } from 'vitest';
import { assumedDrive, checkInput, type InputFacts } from '@/lib/core/planning';

const hour = (h: number) => h * 3_600_000;
const span = (from: number, to: number) => ({ startMs: hour(from), endMs: hour(to) });
const sam: InputFacts['technicians'][number] = { id: 's', name: 'Sam', skills: [], hasShift: true, hours: [span(8, 16)], booked: [] };
const kitchen: InputFacts['kitchens'][number] = { id: 'k', name: 'Harbour Grill', placed: true, open: [span(6, 18)], closedToUs: false };
const task: InputFacts['tasks'][number] = { kitchenId: 'k', minutes: 30, accessMinutes: 10, skills: [] };
const sound: InputFacts = {
  technicians: [sam],
  kitchens: [kitchen],
  tasks: [task, task],
  due: { tasks: 2, kitchens: 1, onVisits: 0 },
  unitsOnFile: 2,
  weekIsOver: false,
  shopPlaced: true,
  fromShop: 1,
  drive: { minutes: 25, low: 10, high: 45, from: 'common practice' },
  costsSet: true,
  distance: 'mi',
};
const findings = (over: Partial<InputFacts>) =>
  checkInput({ ...sound, ...over }).map((f) => [f.weight, f.message, f.mend.at, f.tasks] as const);

const cases: [string, Partial<InputFacts>, ReturnType<typeof findings>[number]][] = [
  ['an empty fleet', { unitsOnFile: 0 }, ['stops', 'No unit is on file, so there is nothing to look after yet.', 'import', 0]],
  ['nothing due', { due: { tasks: 0, kitchens: 0, onVisits: 0 } }, ['stops', 'Nothing is due by the end of this week.', 'due', 0]],
  [
    'all of it booked',
    { due: { tasks: 0, kitchens: 0, onVisits: 7 } },
    ['stops', 'All 7 tasks due by the end of this week stand on a visit already.', 'week', 0],
  ],
  ['a week gone by', { weekIsOver: true }, ['stops', 'This week is over.', 'coming week', 0]],
  ['no technician', { technicians: [] }, ['stops', 'No technician is on file, so nobody can be sent.', 'new person', 2]],
  ['no shift', { technicians: [{ ...sam, hasShift: false, hours: [] }] }, ['stops', 'Sam has no shift.', 'person', 2]],
  ['a week off', { technicians: [{ ...sam, hours: [] }] }, ['stops', 'Sam does not work on what is left of this week.', 'person', 2]],
  ['a full week', { technicians: [{ ...sam, booked: [span(7, 17)] }] }, ['stops', 'Sam is booked for all of the week.', 'week', 2]],
  [
    'a skill nobody has',
    { tasks: [{ ...task, skills: ['flammable'] }, task] },
    ['keeps out', 'Nobody is on file for flammable refrigerants: 1 task at Harbour Grill.', 'people', 1],
  ],
  [
    'days closed to us',
    { kitchens: [{ ...kitchen, open: [], closedToUs: true }] },
    ['keeps out', 'Harbour Grill is closed to us for the rest of this week.', 'kitchen', 2],
  ],
  [
    'hours that never meet',
    { kitchens: [{ ...kitchen, open: [span(17, 23)] }] },
    ['keeps out', 'Harbour Grill has no hours for us while anyone who could go is at work.', 'kitchen', 2],
  ],
  [
    'a visit longer than any window',
    { tasks: [{ ...task, minutes: 900 }] },
    ['keeps out', 'Work at Harbour Grill takes longer than its longest hours for us.', 'kitchen', 1],
  ],
  [
    'a shop without a position',
    { shopPlaced: false },
    [
      'assumed',
      'The shop has no position: the drive from it is counted as 25 min one way (10 to 45; common practice in a town).',
      'shop',
      0,
    ],
  ],
  [
    'kitchens without a position',
    { kitchens: [{ ...kitchen, placed: false }] },
    [
      'assumed',
      '1 kitchen has no position: each drive to it is counted as 25 min one way (10 to 45; common practice in a town).',
      'positions',
      0,
    ],
  ],
  [
    'no costs',
    { costsSet: false },
    ['assumed', 'The shop’s costs are not set: an hour of work is taken as 45 and a mile as 0.70, in your currency.', 'costs', 0],
  ],
];

describe('the input of a week, before the search', () => {
  it('has nothing to say where all is well', () => expect(findings({})).toEqual([]));
  it.each(cases)('names %s in one line, with the page that mends it', (_, over, line) => expect(findings(over)).toEqual([line]));

  it('groups kitchens under one cause', () => {
    const kitchens = ['a', 'b', 'c', 'd', 'e'].map((id) => ({ ...kitchen, id, name: `Kitchen ${id}`, open: [] }));
    const tasks = kitchens.map((k) => ({ ...task, kitchenId: k.id }));
    expect(findings({ kitchens, tasks })).toEqual([
      ['keeps out', 'Kitchen a, Kitchen b, Kitchen c and 2 more have no hours left for us this week.', 'kitchen', 5],
    ]);
  });

  it('names one technician without a shift beside one who works, and plans on', () => {
    const june = { ...sam, id: 'j', name: 'June', hasShift: false, hours: [] };
    expect(findings({ technicians: [sam, june] })).toEqual([['keeps out', 'June has no shift.', 'person', 0]]);
  });
});

describe('the drive that is assumed', () => {
  const travel = { circuity: 1, speedKmh: 60 };
  // One degree of latitude is 111.2 km (IUGG mean radius), so 0.1 is 11.1 minutes at 60 km/h.
  const line = (n: number) => Array.from({ length: n }, (_, i) => ({ lat: 40 + i / 10, lng: -105 }));
  it('is what is usual until enough kitchens have a position', () =>
    expect(assumedDrive(line(5), travel)).toMatchObject({ minutes: 25, from: 'common practice' }));
  it('is the middle of the ways between them afterwards', () =>
    expect(assumedDrive(line(7), travel)).toEqual({ minutes: 23, low: 12, high: 56, from: 'own kitchens' }));
});
