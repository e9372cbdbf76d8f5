/** Gases of one fleet: a tablet fetches the numbers of its own and of no other. */
const FLEET = ['R134a', 'R404A', 'R290', 'R448A'];

/** Whether a script of the round is one of its code, or of the numbers of the fleet's gases. */
export function isOfFleet(name: string): boolean {
  const gas = /(?:^|\/)(R\d\w*)-[^/]*\.js$/.exec(name)?.[1];
  return name.endsWith('.js') && (!gas || FLEET.includes(gas));
}
