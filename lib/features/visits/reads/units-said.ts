import 'server-only';

type About = readonly { unitId: string | null }[];

/** Everything by which a visit says something about a unit, whether the unit was planned or not. */
export type Said = {
  tasks: About;
  findings: About;
  readings: About;
  outcomes: About;
  photos: About;
  unitEvents: About;
  followUps: About;
  foodWarnings: About;
  parts: About;
  sealed?: About;
};

/** The units that a visit says something about. */
export function unitsSaid({
  tasks,
  findings,
  readings,
  outcomes,
  photos,
  unitEvents,
  followUps,
  foodWarnings,
  parts,
  sealed = [],
}: Said): Set<string> {
  const all = [tasks, findings, readings, outcomes, photos, unitEvents, followUps, foodWarnings, parts, sealed].flat();
  return new Set(all.map((x) => x.unitId).filter((id) => id !== null));
}
