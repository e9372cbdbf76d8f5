type Place = { technicianId: string; start: number; end: number };
export type Move = { from: Place; to: Place };

const meet = (a: Place, b: Place) => a.technicianId === b.technicianId && a.start < b.end && b.start < a.end;

/**
 * An order in which moves can be made one by one with nobody in two places on the way: each goes where no visit still
 * to be moved stands. Null when they wait for one another in a ring.
 */
export function moveOrder<M extends Move>(moves: readonly M[]): M[] | null {
  const left = [...moves];
  const order: M[] = [];
  while (left.length > 0) {
    const next = left.findIndex((move) => left.every((other) => other === move || !meet(move.to, other.from)));
    if (next < 0) return null;
    order.push(...left.splice(next, 1));
  }
  return order;
}
