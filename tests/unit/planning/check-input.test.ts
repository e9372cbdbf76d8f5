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
  ['a week off', { technicians: [{ ...sam, hours: [] }] }, ['stops', 'Nobody works on what is left of this week.', 'week after', 2]],
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

describe('each finding', () => {
  const whole = (over: Partial<InputFacts>) => checkInput({ ...sound, ...over });
  const june: InputFacts['technicians'][number] = { ...sam, id: 'j', name: 'June' };
  const [a, b, c, d] = ['a', 'b', 'c', 'd'].map((id) => ({ ...kitchen, id, name: `Kitchen ${id}` }));
  const at = (...kitchens: (typeof kitchen | undefined)[]) => ({ kitchens: kitchens.flatMap((k) => k ?? []), tasks: kitchens.flatMap((k) => (k ? [{ ...task, kitchenId: k.id }] : [])) }); // prettier-ignore
  const shut = (...kitchens: (typeof kitchen | undefined)[]) => at(...kitchens.map((k) => k && { ...k, open: [] }));
  const mends = (over: Partial<InputFacts>) => whole(over).map((f) => [f.code, f.mend]);

  it('has its code, and names the record that mends it and what to do there', () => {
    expect(mends({ weekIsOver: true })).toEqual([['week_over', { at: 'coming week', label: 'Plan a coming week' }]]);
    expect(mends({ unitsOnFile: 0 })).toEqual([['no_fleet', { at: 'import', label: 'Bring in a sheet' }]]);
    expect(mends({ due: { tasks: 0, kitchens: 0, onVisits: 1 } })).toEqual([['all_booked', { at: 'week', label: 'See the week' }]]);
    expect(mends({ due: { tasks: 0, kitchens: 0, onVisits: 0 } })).toEqual([['no_due_work', { at: 'due', label: 'What falls due later' }]]);
    expect(mends({ technicians: [] })).toEqual([['no_technician', { at: 'new person', label: 'Put a technician on file' }]]);
    expect(mends({ technicians: [sam, { ...june, hasShift: false, hours: [] }] })).toEqual([['no_shift', { at: 'person', id: 'j', label: 'Give June a shift' }]]); // prettier-ignore
    expect(mends({ technicians: [{ ...sam, hours: [] }, june] })).toEqual([['off', { at: 'person', id: 's', label: 'Days of Sam' }]]);
    expect(mends({ technicians: [{ ...sam, hours: [] }, { ...june, hours: [] }] })).toEqual([['nobody_works', { at: 'week after', label: 'Look at the week after' }]]); // prettier-ignore
    expect(mends({ technicians: [{ ...sam, hours: [] }, { ...june, hasShift: false, hours: [] }] }).map(([code]) => code)).toEqual(['no_shift', 'nobody_works']); // prettier-ignore
    expect(mends({ technicians: [{ ...sam, booked: [span(8, 16)] }] })).toEqual([['all_full', { at: 'week', label: 'See the week' }]]);
    expect(mends(shut(a))).toEqual([['no_hours', { at: 'kitchen', id: 'a', label: 'Hours for us' }]]);
    expect(mends(shut(a, b))).toEqual([['no_hours', { at: 'kitchen', id: 'a', label: 'Hours for us, the first' }]]);
    expect(mends(at(a && { ...a, open: [], closedToUs: true }))).toEqual([['closed', { at: 'kitchen', id: 'a', label: 'Days closed to us' }]]); // prettier-ignore
    expect(mends({ tasks: [{ ...task, skills: ['roof'] }] })).toEqual([['no_skill', { at: 'people', label: 'Who is licensed for it' }]]);
    expect(mends({ shopPlaced: false, costsSet: false, kitchens: [{ ...kitchen, placed: false }] })).toEqual([
      ['no_shop_place', { at: 'shop', label: 'Set the shop’s position' }],
      ['no_kitchen_place', { at: 'positions', label: 'Give kitchens positions' }],
      ['no_costs', { at: 'costs', label: 'Set the costs' }],
    ]);
  });

  it('tells one kitchen from two, three and more', () => {
    const said = (...kitchens: (typeof kitchen | undefined)[]) => whole(shut(...kitchens)).map((f) => f.message);
    expect(said(a)).toEqual(['Kitchen a has no hours left for us this week.']);
    expect(said(a, b)).toEqual(['Kitchen a and Kitchen b have no hours left for us this week.']);
    expect(said(a, b, c)).toEqual(['Kitchen a, Kitchen b and Kitchen c have no hours left for us this week.']);
    expect(said(a, b, c, d)).toEqual(['Kitchen a, Kitchen b, Kitchen c and 1 more have no hours left for us this week.']);
    const closed = [a, b].map((k) => k && { ...k, open: [], closedToUs: true });
    expect(whole(at(...closed)).map((f) => f.message)).toEqual(['Kitchen a and Kitchen b are closed to us for the rest of this week.']);
    const short = [a, b].map((k) => k && { ...k, open: [span(9, 9.5)] });
    expect(whole(at(...short)).map((f) => f.message)).toEqual(['Work at Kitchen a and Kitchen b takes longer than their longest hours for us.']); // prettier-ignore
    const night = [a, b].map((k) => k && { ...k, open: [span(17, 23)] });
    expect(whole(at(...night)).map((f) => f.message)).toEqual(['Kitchen a and Kitchen b have no hours for us while anyone who could go is at work.']); // prettier-ignore
    expect(whole({ ...at(...[a, b].map((k) => k && { ...k, placed: false })) }).map((f) => f.message)).toEqual(['2 kitchens have no position: each drive to them is counted as 25 min one way (10 to 45; common practice in a town).']); // prettier-ignore
  });

  it('counts each task once, with the first cause that keeps it out', () => {
    const both = at(a && { ...a, open: [] }, b && { ...b, open: [span(17, 23)] });
    const tasks = [...both.tasks, ...both.tasks, { ...task, kitchenId: 'a', skills: ['roof'] }, { ...task, kitchenId: 'gone' }];
    expect(whole({ ...both, tasks }).map((f) => [f.code, f.tasks])).toEqual([['no_hours', 2], ['never_meet', 2], ['no_skill', 1]]); // prettier-ignore
  });

  it('tells a skill nobody has from two that nobody has together, and from people who have them and are off', () => {
    const hard = { tasks: [{ ...task, skills: ['flammable', 'roof'] }, task] };
    const one = { ...sam, skills: ['flammable'] };
    const other = { ...june, skills: ['roof'] };
    expect(findings({ ...hard, technicians: [one, other] })).toEqual([['keeps out', 'Nobody has all the skills together that 1 task at Harbour Grill ask for.', 'people', 1]]); // prettier-ignore
    expect(findings({ ...hard, technicians: [one, june] })).toEqual([['keeps out', 'Nobody is on file for roof work: 1 task at Harbour Grill.', 'people', 1]]); // prettier-ignore
    const able = { ...june, skills: ['flammable', 'roof'], hours: [] };
    expect(whole({ ...hard, technicians: [one, able] }).map((f) => [f.code, f.message, f.mend, f.tasks])).toEqual([
      ['off', 'June does not work on what is left of this week.', { at: 'person', id: 'j', label: 'Days of June' }, 0],
      ['skilled_off', 'Whoever could do 1 task at Harbour Grill is off this week.', { at: 'people', label: 'Who works when' }, 1],
    ]);
  });

  it('of hours: a visit that just fits an opening and a shift is no matter, a minute more is', () => {
    const minutes = (n: number) => [{ ...task, minutes: n - 10 }];
    const open = { kitchens: [{ ...kitchen, open: [span(6, 7), span(15, 17)] }] };
    // Sam works until 16: an hour of the second opening.
    expect(whole({ ...open, tasks: minutes(60) })).toEqual([]);
    expect(whole({ ...open, tasks: minutes(61) }).map((f) => f.code)).toEqual(['never_meet']);
    expect(whole({ ...open, tasks: minutes(120) }).map((f) => f.code)).toEqual(['never_meet']);
    expect(whole({ ...open, tasks: minutes(121) }).map((f) => f.code)).toEqual(['too_long']);
    // Somebody who could go and is free suffices, whatever the other's hours.
    expect(whole({ ...open, tasks: minutes(120), technicians: [sam, { ...june, hours: [span(12, 20)] }] })).toEqual([]);
  });

  it('of people: full is who has less than a quarter of an hour left, and all of them must be', () => {
    const until = (to: number) => ({ ...sam, booked: [span(8, to)] });
    expect(whole({ technicians: [until(15.75)] })).toEqual([]);
    expect(whole({ technicians: [until(15.8)] }).map((f) => [f.code, f.tasks])).toEqual([['all_full', 2]]);
    expect(whole({ technicians: [until(15.8), june] })).toEqual([]);
    const two = [until(16), { ...june, booked: [span(7, 12), span(12, 18)] }];
    expect(findings({ technicians: two })).toEqual([['stops', 'Sam and June are booked for all of the week.', 'week', 2]]);
    // What is booked outside the shift takes nothing from it.
    expect(whole({ technicians: [{ ...sam, booked: [span(0, 8), span(16, 24)] }] })).toEqual([]);
    // Where nothing can be planned, kitchens are not gone through.
    expect(whole({ ...shut(a), technicians: [] }).map((f) => f.code)).toEqual(['no_technician']);
  });

  it('counts a guess only where something rests on it, in the shop’s own measure', () => {
    expect(whole({ shopPlaced: false, fromShop: 0 })).toEqual([]);
    expect(whole({ kitchens: [kitchen, { ...kitchen, id: 'idle', placed: false }] })).toEqual([]);
    expect(findings({ costsSet: false, distance: 'km' }).map(([, message]) => message)).toEqual(['The shop’s costs are not set: an hour of work is taken as 45 and a kilometre as 0.43, in your currency.']); // prettier-ignore
    const drive = { minutes: 31, low: 12, high: 50, from: 'own kitchens' } as const;
    expect(findings({ shopPlaced: false, drive }).map(([, message]) => message)).toEqual(['The shop has no position: the drive from it is counted as 31 min one way (12 to 50; as between your other kitchens).']); // prettier-ignore
    expect(whole({ shopPlaced: false, costsSet: false }).map((f) => [f.weight, f.tasks])).toEqual([['assumed', 0], ['assumed', 0]]); // prettier-ignore
  });
});

describe('the drive that is assumed', () => {
  const travel = { circuity: 1, speedKmh: 60 };
  // One degree of latitude is 111.2 km (IUGG mean radius), so 0.1 is 11.1 minutes at 60 km/h.
  const line = (n: number) => Array.from({ length: n }, (_, i) => ({ lat: 40 + i / 10, lng: -105 }));
  it('is what is usual until enough kitchens have a position', () =>
    expect(assumedDrive(line(5), travel)).toMatchObject({ minutes: 25, from: 'common practice' }));
  it('leaves out ways that nobody knows, and is what is usual where none is known', () => {
    const matrix = Array.from({ length: 7 }, (_, i) => Array.from({ length: 7 }, (_, j) => (i < 2 && j < 2 ? 8 : -1)));
    expect(assumedDrive(Array.from({ length: 7 }, (_, matrixRow) => ({ matrixRow })), { ...travel, matrix })).toEqual({ minutes: 8, low: 8, high: 8, from: 'own kitchens' }); // prettier-ignore
    expect(assumedDrive(Array.from({ length: 7 }, () => ({})), travel).from).toBe('common practice'); // prettier-ignore
  });
  it('asks six places at least and sixty at most', () => {
    expect(assumedDrive(line(6), travel).from).toBe('own kitchens');
    expect(assumedDrive([...line(60), { lat: -40, lng: 105 }], travel)).toEqual(assumedDrive(line(60), travel));
  });
  it('is the middle of the ways between them afterwards', () =>
    expect(assumedDrive(line(7), travel)).toEqual({ minutes: 23, low: 12, high: 56, from: 'own kitchens' }));
});
