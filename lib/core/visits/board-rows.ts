export type BoardRow = { id: string; name: string; works: boolean };

/** Rows of the week: the technicians, then whoever has a visit in it and does none any more, so that no visit is out of sight. */
export function boardRows(
  technicians: readonly { id: string; name: string }[],
  visits: readonly { technicianId: string; technician: string }[],
): BoardRow[] {
  const ids = new Set(technicians.map((t) => t.id));
  const others = new Map(visits.filter((v) => !ids.has(v.technicianId)).map((v) => [v.technicianId, v.technician]));
  return [
    ...technicians.map(({ id, name }) => ({ id, name, works: true })),
    ...[...others].map(([id, name]) => ({ id, name, works: false })).sort((a, b) => a.name.localeCompare(b.name)),
  ];
}

/**
 * One part of a list of technicians too long for one picture, and whose visits belong in it: in the last part also those of
 * people who do visits no more. Whatever `asked` is, a part that exists.
 */
export function partOf<T extends { id: string }>(all: readonly T[], most: number, asked: number) {
  const parts = Math.max(1, Math.ceil(all.length / most));
  const part = Number.isInteger(asked) ? Math.min(Math.max(asked, 0), parts - 1) : 0;
  const first = part * most;
  const shown = all.slice(first, first + most);
  const ids = (people: readonly T[]) => people.map((p) => p.id);
  const whose: { in: string[] } | { notIn: string[] } = part < parts - 1 ? { in: ids(shown) } : { notIn: ids(all.slice(0, first)) };
  return { part, parts, first, shown, whose: parts === 1 ? undefined : whose };
}
