import { approximateWeeks } from '../calendar';

/** A change that evidence made, as the owner's list has it. */
export type ChangeToLookAt = {
  id: string;
  fromRule: string;
  toRule: string;
  evidence: { [figure: string]: unknown };
  task: { kind: string; locked: boolean; rule: string; booked: boolean };
};

/** What moved rules of one kind the same way. */
export const GROUP_WORDS = {
  severe: 'more often: a bad find',
  tighter: 'more often: it got dirty or failed sooner than thought',
  looser: 'less often: found clean again and again',
} as const;
export type GroupWhy = keyof typeof GROUP_WORDS;

export type ChangeGroup<C> = { key: string; kind: string; why: GroupWhy; changes: C[]; fromWeeks: number; toWeeks: number };

const weeksOf = (c: ChangeToLookAt) => ({ from: approximateWeeks(c.fromRule), to: approximateWeeks(c.toRule) });

/**
 * Why a change deserves a look of its own, or null: an interval halved or doubled, a rule that is locked or has moved on since, or
 * a visit booked under the rule before it. Everything else is like the others of its group.
 */
function unusual(c: ChangeToLookAt): string | null {
  const { from, to } = weeksOf(c);
  if (c.task.rule !== c.toRule) return 'The rule has changed again since.';
  if (c.task.locked) return 'The rule is locked now.';
  if (to * 2 <= from) return 'The interval is halved or less.';
  if (to >= from * 2) return 'The interval is doubled or more.';
  return null;
}

function whyOf(c: ChangeToLookAt): GroupWhy {
  const { from, to } = weeksOf(c);
  if (to > from) return 'looser';
  return c.evidence['guard'] === 'severe' ? 'severe' : 'tighter';
}

const middle = (list: number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;

/** Changes that are alike, the largest group first, and those that are not, each with why. */
export function groupChanges<C extends ChangeToLookAt>(
  changes: readonly C[],
): { groups: ChangeGroup<C>[]; odd: { change: C; why: string }[] } {
  const odd: { change: C; why: string }[] = [];
  const groups = new Map<string, C[]>();
  for (const change of changes) {
    const why = unusual(change);
    if (why) odd.push({ change, why });
    else {
      const key = `${change.task.kind}: ${whyOf(change)}`;
      groups.set(key, [...(groups.get(key) ?? []), change]);
    }
  }
  const listed = [...groups].map(([key, list]): ChangeGroup<C> => ({
    key,
    kind: list[0]?.task.kind ?? '',
    why: list[0] ? whyOf(list[0]) : 'tighter',
    changes: list,
    fromWeeks: middle(list.map((c) => weeksOf(c).from)),
    toWeeks: middle(list.map((c) => weeksOf(c).to)),
  }));
  return { groups: listed.sort((a, b) => b.changes.length - a.changes.length || a.key.localeCompare(b.key)), odd };
}
