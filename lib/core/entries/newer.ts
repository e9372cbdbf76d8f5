/**
 * Which of two entries for the same place stands: the later made one; of two made in the same instant the greater id,
 * so that a tablet and the office always decide alike. Times are ISO instants in UTC.
 */
export function stands(incoming: { at: string; id: string }, standing: { at: string; id: string }): boolean {
  const a = Date.parse(incoming.at);
  const b = Date.parse(standing.at);
  return a === b ? incoming.id > standing.id : a > b;
}
