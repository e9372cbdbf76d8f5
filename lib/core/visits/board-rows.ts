export type BoardRow = { id: string; name: string; works: boolean };

/** Rows of the week: the technicians, then whoever has a visit in it and does none any more, so that no visit is out of sight. */
export function boardRows(
  technicians: readonly { id: string; name: string }[],
  visits: readonly { technicianId: string; technician: string }[],
): BoardRow[] {
  const known = new Set(technicians.map((t) => t.id));
  const others = new Map(visits.filter((v) => !known.has(v.technicianId)).map((v) => [v.technicianId, v.technician]));
  return [
    ...technicians.map(({ id, name }) => ({ id, name, works: true })),
    ...[...others].map(([id, name]) => ({ id, name, works: false })).sort((a, b) => a.name.localeCompare(b.name)),
  ];
}
