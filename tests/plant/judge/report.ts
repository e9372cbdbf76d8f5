import { answers, type Ask, type Row } from './cases';
import {
  besideIt,
  bothTold,
  cleanedForNothing,
  cleanIt,
  COIL_STATES,
  fine,
  leading,
  named,
  OTHER_STATES,
  otherUntold,
  reliability,
} from './causes';
import { cover, errorOf, grouped, QUANTITIES, share, withinByChance, type Quantity } from './figures';
import type { State } from '../world/states';

const percent = (x: number) => (Number.isNaN(x) ? '–' : (100 * x).toFixed(0)).padStart(4);
const cell = (x: number, digits = 3) => (Number.isFinite(x) ? x.toFixed(digits) : '–').padStart(8);
const line = (...cells: (string | number)[]) => cells.map((c, i) => String(c).padEnd(i === 0 ? 26 : 0)).join('  ');

const isCoil = (r: Row) => COIL_STATES.includes(r.state);
const OF: Record<Quantity, string> = {
  conductance: 'conductance lost',
  cooling: 'cooling lost, hot day',
  energy: 'extra energy, kWh/day',
  discharge: 'discharge, K',
};

export function report(ask: Ask): string {
  const rows = answers({ ...ask, looks: LOOKS });
  const out: string[] = [];
  const say = (...parts: (string | number)[]) => out.push(line(...parts));
  const blind = rows.filter((r) => !r.graded);
  say(
    `Part ${ask.part}, ${ask.made ? `${ask.made.length} cases` : `cases ${ask.from} to ${ask.from + ask.cases - 1}`}; ${rows.length} answers; ${percent(share(rows, (r) => r.answer.status === 'ok'))} % say a figure`,
  );
  for (const q of QUANTITIES) coverage(say, blind, q);
  cells(say, blind);
  widths(say, blind);
  verdicts(say, rows);
  causes(say, rows);
  asked(say, rows);
  say('\nReliability: causes told, by tenths of their weight (all sets, blind | with grades)');
  const [a, b] = [reliability(blind), reliability(rows.filter((r) => r.graded))];
  a.forEach((t, i) =>
    say(
      `  ${t.from.toFixed(1)}–${(t.from + 0.1).toFixed(1)}`,
      `n ${t.n}`.padEnd(9),
      `told ${percent(t.claimed)}`,
      `came ${percent(t.came)}`,
      ' | ',
      `n ${b[i]?.n}`.padEnd(9),
      `told ${percent(b[i]?.claimed ?? NaN)}`,
      `came ${percent(b[i]?.came ?? NaN)}`,
    ),
  );
  return out.join('\n');
}

/** How many of the looks asked for are taken. */
const LOOKS = 2;

type Say = (...parts: (string | number)[]) => void;

function coverage(say: Say, rows: readonly Row[], q: Quantity): void {
  say(`\n80 % band, ${OF[q]}`, 'n', 'held %', '± one error', 'bias', 'rms', 'half-width');
  const print = (name: string, list: readonly Row[]) => {
    const c = cover(list, q);
    if (c.n > 0)
      say(`  ${name}`, String(c.n).padStart(5), percent(c.held), `±${(100 * c.error).toFixed(1)}`, cell(c.bias), cell(c.rms), cell(c.half));
  };
  print('all', rows);
  for (const based of [false, true]) {
    const mine = rows.filter((r) => r.based === based);
    const basis = based ? 'baseline' : 'no baseline';
    print(`coil states, ${basis}`, mine.filter(isCoil));
    print(
      `other states, ${basis}`,
      mine.filter((r) => !isCoil(r)),
    );
  }
  for (const [set, list] of grouped(rows.filter(isCoil), (r) => r.set)) print(`coil, ${set}`, list);
  for (const [state, list] of grouped(rows, (r) => `${r.state}, ${r.expansion}`)) print(state, list);
}

/** Every state × set × expansion with enough in it; then those of the coil alone. */
function cells(say: Say, rows: readonly Row[]): void {
  say('\nCells state × set × expansion (20 or more answers): within 72–88 %, by chance alone, and the worst');
  for (const list of [rows, rows.filter(isCoil)])
    for (const q of QUANTITIES) {
      const all = [...grouped(list, (r) => `${r.state} ${r.set} ${r.expansion}`)]
        .map(([name, of]) => ({ name, ...cover(of, q) }))
        .filter((c) => c.n >= 20);
      const good = all.filter((c) => c.held >= 0.72 && c.held <= 0.88).length;
      const worst = [...all].sort((a, b) => a.held - b.held).slice(0, 3);
      const chance = (n: (c: (typeof all)[number]) => number) => all.reduce((sum, c) => sum + withinByChance(n(c)), 0).toFixed(0);
      say(
        `  ${OF[q]}${list === rows ? '' : ', coil'}`,
        `${good} of ${all.length}`,
        `by chance ${chance((c) => c.machines)} to ${chance((c) => c.n)}`,
        worst.map((c) => `${c.name} ${percent(c.held)} %`).join('; '),
      );
    }
}

function widths(say: Say, rows: readonly Row[]): void {
  say('\nHalf-width of conductance lost by set, coil states', 'no baseline', 'baseline');
  for (const [set, list] of grouped(rows.filter(isCoil), (r) => r.set))
    say(`  ${set}`, cell(cover(list.filter((r) => !r.based), 'conductance').half), cell(cover(list.filter((r) => r.based), 'conductance').half)); // prettier-ignore
}

function verdicts(say: Say, rows: readonly Row[]): void {
  say('\n"Clean it", % of answers', 'blind', 'graded', 'blind, full', 'graded, full', 'fine, blind', 'cannot say, blind');
  const print = (name: string, list: readonly Row[]) => {
    if (list.length === 0) return;
    const [b, g] = [list.filter((r) => !r.graded), list.filter((r) => r.graded)];
    const full = (l: readonly Row[]) => l.filter((r) => r.set === 'full');
    say(`  ${name}`, percent(share(b, cleanIt)), percent(share(g, cleanIt)), percent(share(full(b), cleanIt)), percent(share(full(g), cleanIt)), percent(share(b, fine)), percent(share(b, (r) => r.answer.status !== 'ok'))); // prettier-ignore
  };
  const of = (...states: State[]) => rows.filter((r) => states.includes(r.state));
  for (const state of COIL_STATES) print(state, of(state));
  print(
    'foul50, warm box',
    of('foul50').filter((r) => r.warmBox),
  );
  print('any other cause', of(...OTHER_STATES));
  for (const state of OTHER_STATES) print(state, of(state));
  together(say, of(...OTHER_STATES));
}

/** Of a part met as in a kitchen: what is told where the coil is dirty beside another trouble. */
function together(say: Say, rows: readonly Row[]): void {
  if (!rows.some((r) => r.beside)) return;
  say('\nAnother cause, % of answers', 'n', 'blind', 'graded', 'blind, full', 'graded, full');
  const print = (name: string, list: readonly Row[], holds: (r: Row) => boolean) => {
    const parts = [false, true].map((g) => list.filter((r) => r.graded === g));
    const full = parts.map((l) => l.filter((r) => r.set === 'full'));
    say(`  ${name}`, String(list.length).padStart(5), ...[...parts, ...full].map((l) => percent(share(l, holds))));
  };
  const worth = rows.filter((r) => besideIt(r) !== null);
  print(
    '"clean it", dirt not worth it',
    rows.filter((r) => besideIt(r) === null),
    cleanedForNothing,
  );
  print('"clean it", more not told', worth, otherUntold);
  print('two at once: the greater leads', worth, named);
  print('two at once: both told', worth, bothTold);
  print('two at once: "clean it"', worth, cleanIt);
}

/** Where numbers cannot tell, the right answer is to ask for what does: how often that is so. */
function asked(say: Say, rows: readonly Row[]): void {
  say('\nRight cause leads after what is asked for first is taken, full set, %', 'blind', 'one look', 'two', 'graded', 'one look', 'two', 'of missed with grades, one decides', 'two'); // prettier-ignore
  for (const [state, list] of grouped(
    rows.filter((r) => r.after),
    (r) => r.state,
  )) {
    const after = (of: readonly Row[], looks: number) => share(of, (r) => named({ ...r, answer: r.after?.[looks - 1] ?? r.answer }));
    const [blind, graded] = [list.filter((r) => !r.graded), list.filter((r) => r.graded)];
    const missed = graded.filter((r) => !named(r));
    say(`  ${state}`, ...[blind, graded].flatMap((of) => [percent(share(of, named)), percent(after(of, 1)), percent(after(of, 2))]), ...[1, 2].map((n) => percent(after(missed, n))), `of ${missed.length}`); // prettier-ignore
  }
}

function causes(say: Say, rows: readonly Row[]): void {
  say(
    '\nRight cause leads, %',
    'full blind',
    'full graded',
    '± one error',
    'of',
    'manifold',
    'manifold+box',
    'head+air',
    'clamps',
    'mostly led by, full blind',
  );
  for (const [state, list] of grouped(rows, (r) => r.state)) {
    const part = (set: Row['set'], graded: boolean) => list.filter((r) => r.set === set && r.graded === graded);
    // Answers with and without a baseline are about one machine.
    const machines = new Set(list.map((r) => r.seed)).size;
    const once = (set: Row['set'], graded: boolean) => errorOf(share(part(set, graded), named), machines);
    const leads = grouped(part('full', false), (r) => leading(r)?.id ?? 'none');
    const most = [...leads].sort((a, b) => b[1].length - a[1].length).slice(0, 3).map(([id, l]) => `${id} ${l.length}`); // prettier-ignore
    say(`  ${state}`, percent(share(part('full', false), named)), percent(share(part('full', true), named)), `±${(100 * once('full', true)).toFixed(0)}`.padStart(4), String(machines).padStart(4), percent(share(part('manifold', false), named)), percent(share(part('manifold_box', false), named)), percent(share(part('head_air', false), named)), percent(share(part('clamps', false), named)), most.join(', ')); // prettier-ignore
  }
}
