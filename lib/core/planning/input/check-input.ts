import { DISTANCE_NAME, type DistanceUnit } from '../../measures/region';
import { SKILL_WITHIN } from '../../people/skills';
import { labelOf } from '../../typed/closed-set';
import { counted } from '../../wording/counted';
import type { TimeRange } from '../types';
import type { AssumedDrive } from './assumed-drive';

/**
 * What of a week's input keeps work out, said before the search: a plan cannot be better than what it was given.
 * Findings come grouped by cause, each with the record that mends it.
 */
export type InputFacts = {
  technicians: readonly {
    id: string;
    name: string;
    skills: readonly string[];
    /** Whether any hours stand on file. */
    hasShift: boolean;
    /** Hours left in this week once days off are taken out. */
    hours: readonly TimeRange[];
    /** Booked visits of this week. */
    booked: readonly TimeRange[];
  }[];
  kitchens: readonly {
    id: string;
    name: string;
    placed: boolean;
    /** Hours that the kitchen can spare its equipment in this week, days closed to us taken out. */
    open: readonly TimeRange[];
    /** Whether days closed to us are why nothing is left. */
    closedToUs: boolean;
  }[];
  /** Due in this week and on no visit. */
  tasks: readonly { kitchenId: string; minutes: number; accessMinutes: number; skills: readonly string[] }[];
  /** Due tasks and their kitchens in all, of which `tasks` may be a part. */
  due: { tasks: number; kitchens: number; onVisits: number };
  unitsOnFile: number;
  weekIsOver: boolean;
  shopPlaced: boolean;
  /** Technicians whose rounds begin at the shop. */
  fromShop: number;
  drive: AssumedDrive;
  costsSet: boolean;
  /** Of roads, in which the shop thinks. */
  distance: DistanceUnit;
};

export const MEND_AT = [
  'person',
  'people',
  'new person',
  'kitchen',
  'positions',
  'shop',
  'costs',
  'import',
  'due',
  'week',
  'coming week',
  'week after',
] as const;
export type MendAt = (typeof MEND_AT)[number];
export type Finding = {
  code: string;
  message: string;
  mend: { at: MendAt; id?: string; label: string };
  /** Due tasks that stay out for this cause. */
  tasks: number;
  /** `stops`: nothing can be planned; `keeps out`: some of it; `assumed`: planned on a guess. */
  weight: 'stops' | 'keeps out' | 'assumed';
};

const MINUTE = 60_000;

export function checkInput(facts: InputFacts): Finding[] {
  if (facts.weekIsOver) return [stop('week_over', 'This week is over.', 'coming week', 'Plan a coming week')];
  if (facts.unitsOnFile === 0)
    return [stop('no_fleet', 'No unit is on file, so there is nothing to look after yet.', 'import', 'Bring in a sheet')];
  if (facts.due.tasks === 0)
    return [
      facts.due.onVisits > 0
        ? stop(
            'all_booked',
            `All ${counted(facts.due.onVisits, 'task')} due by the end of this week stand on a visit already.`,
            'week',
            'See the week',
          )
        : stop('no_due_work', 'Nothing is due by the end of this week.', 'due', 'What falls due later'),
    ];
  const people = checkPeople(facts);
  const kept = people.some((f) => f.weight === 'stops') ? [] : checkKitchens(facts);
  return [...people, ...kept, ...assumed(facts)];
}

const stop = (code: string, message: string, at: MendAt, label: string, id?: string, tasks = 0): Finding => ({
  code,
  message,
  mend: { at, label, ...(id ? { id } : {}) },
  tasks,
  weight: 'stops',
});

function checkPeople({ technicians, due }: InputFacts): Finding[] {
  if (technicians.length === 0)
    return [
      stop(
        'no_technician',
        'No technician is on file, so nobody can be sent.',
        'new person',
        'Put a technician on file',
        undefined,
        due.tasks,
      ),
    ];
  const works = technicians.filter((t) => t.hours.length > 0);
  const nobody = works.length === 0;
  const one = (code: string, t: InputFacts['technicians'][number], message: string, label: string): Finding => ({
    code,
    message,
    mend: { at: 'person', id: t.id, label },
    tasks: nobody ? due.tasks : 0,
    weight: nobody ? 'stops' : 'keeps out',
  });
  const found = technicians.flatMap((t) => {
    if (!t.hasShift) return [one('no_shift', t, `${t.name} has no shift.`, `Give ${t.name} a shift`)];
    if (t.hours.length === 0 && !nobody)
      return [one('off', t, `${t.name} does not work on what is left of this week.`, `Days of ${t.name}`)];
    return [];
  });
  if (nobody && technicians.some((t) => t.hasShift))
    found.push(
      stop('nobody_works', 'Nobody works on what is left of this week.', 'week after', 'Look at the week after', undefined, due.tasks),
    );
  const full = works.filter((t) => minutesLeft(t) < 15);
  if (!nobody && full.length === works.length)
    found.push(
      stop(
        'all_full',
        `${named(full.map((t) => t.name))} ${full.length === 1 ? 'is' : 'are'} booked for all of the week.`,
        'week',
        'See the week',
        undefined,
        due.tasks,
      ),
    );
  return found;
}

/** Minutes of shift that no booked visit takes. */
function minutesLeft({ hours, booked }: InputFacts['technicians'][number]): number {
  const length = (r: TimeRange) => Math.max(0, r.endMs - r.startMs);
  const taken = (r: TimeRange) =>
    booked.reduce((sum, b) => sum + length({ startMs: Math.max(b.startMs, r.startMs), endMs: Math.min(b.endMs, r.endMs) }), 0);
  return hours.reduce((sum, r) => sum + length(r) - taken(r), 0) / MINUTE;
}

/** Each task is counted with the first cause that keeps it out. */
function checkKitchens({ technicians, kitchens, tasks }: InputFacts): Finding[] {
  const byId = new Map(kitchens.map((k) => [k.id, k]));
  const causes = new Map<string, { names: Map<string, string>; tasks: number }>();
  const tell = (cause: string, id: string, name: string) => {
    const c = causes.get(cause) ?? { names: new Map<string, string>(), tasks: 0 };
    c.names.set(id, name);
    c.tasks++;
    causes.set(cause, c);
  };
  const longest = (k: { open: readonly TimeRange[] }) => Math.max(0, ...k.open.map((r) => (r.endMs - r.startMs) / MINUTE));
  for (const task of tasks) {
    const k = byId.get(task.kitchenId);
    if (!k) continue;
    const able = technicians.filter((t) => task.skills.every((s) => t.skills.includes(s)));
    const lacking = task.skills.find((s) => !technicians.some((t) => t.skills.includes(s)));
    const needs = task.minutes + task.accessMinutes;
    if (lacking || able.length === 0) tell(`skill ${lacking ?? 'together'}`, k.id, k.name);
    else if (k.open.length === 0) tell(k.closedToUs ? 'closed' : 'no_hours', k.id, k.name);
    else if (longest(k) < needs) tell('too_long', k.id, k.name);
    else if (able.some((t) => t.hours.length > 0) && !able.some((t) => meets(k.open, t.hours, needs))) tell('never_meet', k.id, k.name);
    else if (able.every((t) => t.hours.length === 0)) tell('skilled_off', k.id, k.name);
  }
  return [...causes].map(([cause, { names: all, tasks: n }]): Finding => {
    const ids = [...all.keys()];
    const who = named([...all.values()]);
    const many = ids.length > 1;
    const kitchen = (message: string, label: string): Finding => ({
      code: cause,
      message,
      mend: { at: 'kitchen', id: ids[0], label: many ? `${label}, the first` : label },
      tasks: n,
      weight: 'keeps out',
    });
    if (cause.startsWith('skill ')) {
      const skill = cause.slice(6);
      const message =
        skill === 'together'
          ? `Nobody has all the skills together that ${counted(n, 'task')} at ${who} ask for.`
          : `Nobody is on file for ${labelOf(SKILL_WITHIN, skill)}: ${counted(n, 'task')} at ${who}.`;
      return { code: 'no_skill', message, mend: { at: 'people', label: 'Who is licensed for it' }, tasks: n, weight: 'keeps out' };
    }
    switch (cause) {
      case 'closed':
        return kitchen(`${who} ${many ? 'are' : 'is'} closed to us for the rest of this week.`, 'Days closed to us');
      case 'no_hours':
        return kitchen(`${who} ${many ? 'have' : 'has'} no hours left for us this week.`, 'Hours for us');
      case 'too_long':
        return kitchen(`Work at ${who} takes longer than ${many ? 'their' : 'its'} longest hours for us.`, 'Hours for us');
      case 'skilled_off':
        return {
          ...kitchen(`Whoever could do ${counted(n, 'task')} at ${who} is off this week.`, 'Hours for us'),
          mend: { at: 'people', label: 'Who works when' },
        };
      default:
        return kitchen(`${who} ${many ? 'have' : 'has'} no hours for us while anyone who could go is at work.`, 'Hours for us');
    }
  });
}

/** Whether an opening and a shift share that many minutes. */
const meets = (open: readonly TimeRange[], hours: readonly TimeRange[], minutes: number): boolean =>
  open.some((o) => hours.some((h) => Math.min(o.endMs, h.endMs) - Math.max(o.startMs, h.startMs) >= minutes * MINUTE));

/** What is planned on a guess, told once. */
function assumed({ kitchens, tasks, shopPlaced, fromShop, drive, costsSet, distance }: InputFacts): Finding[] {
  const asked = new Set(tasks.map((t) => t.kitchenId));
  const lost = kitchens.filter((k) => !k.placed && asked.has(k.id)).length;
  const way = `${drive.minutes} min one way (${drive.low} to ${drive.high}; ${drive.from === 'own kitchens' ? 'as between your other kitchens' : 'common practice in a town'})`;
  const guess = (code: string, message: string, at: MendAt, label: string): Finding => ({
    code,
    message,
    mend: { at, label },
    tasks: 0,
    weight: 'assumed',
  });
  const out: Finding[] = [];
  if (!shopPlaced && fromShop > 0)
    out.push(
      guess('no_shop_place', `The shop has no position: the drive from it is counted as ${way}.`, 'shop', 'Set the shop’s position'),
    );
  if (lost > 0)
    out.push(
      guess(
        'no_kitchen_place',
        `${counted(lost, 'kitchen')} ${lost === 1 ? 'has' : 'have'} no position: each drive to ${lost === 1 ? 'it' : 'them'} is counted as ${way}.`,
        'positions',
        'Give kitchens positions',
      ),
    );
  if (!costsSet)
    out.push(
      guess(
        'no_costs',
        `The shop’s costs are not set: an hour of work is taken as 45 and a ${DISTANCE_NAME[distance]} as ${distance === 'mi' ? '0.70' : '0.43'}, in your currency.`,
        'costs',
        'Set the costs',
      ),
    );
  return out;
}

/** "A, B, C and 9 more". */
function named(list: readonly string[]): string {
  const shown = list.slice(0, 3);
  if (list.length > 3) return `${shown.join(', ')} and ${list.length - 3} more`;
  return shown.length < 2 ? (shown[0] ?? '') : `${shown.slice(0, -1).join(', ')} and ${shown[shown.length - 1]}`;
}
