type Query = Record<string, string | undefined>;

/** The due list's address with some of its questions changed; undefined leaves one out. */
export function addressOf(query: Query, change: Query): string {
  const all = Object.entries({ ...query, ...change }).filter((e): e is [string, string] => e[1] !== undefined && e[1] !== '');
  const asked = new URLSearchParams(all).toString();
  return asked ? `/due?${asked}` : '/due';
}
