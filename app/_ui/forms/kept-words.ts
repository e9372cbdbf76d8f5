/** What was typed into a form and not saved: each field as it was when the page came, and as it was left. */
export type KeptFields = Record<string, { was: string[]; is: string[] }>;
export type Kept = { at: number; version: string; fields: KeptFields };
export type Values = Record<string, string[]>;

const PREFIX = 'rimebook typed ';
/** Words nobody came back for: a fortnight. */
const KEEP_MS = 14 * 86_400_000;
const MOST_FORMS = 40;
const LONGEST = 100_000;

const same = (a: readonly string[], b: readonly string[]) => a.length === b.length && a.every((x, i) => x === b[i]);

/** The fields that differ from what they were. A field that is not in the page at the moment keeps what is known of it. */
export function changedFields(was: Values, is: Values, before: KeptFields): KeptFields {
  const absent = Object.entries(before).filter(([name]) => !(name in is));
  const changed = Object.entries(is).flatMap(([name, now]) => {
    const before = was[name] ?? [];
    return same(before, now) ? [] : [[name, { was: before, is: now }] as const];
  });
  return Object.fromEntries([...absent, ...changed]);
}

/** What is to be put back into a form as it stands on file now, and whether somebody saved other words there meanwhile. */
export function toPutBack(kept: Kept, now: Values, version: string): { fields: Values; changedSince: boolean } {
  const open = Object.entries(kept.fields).filter(([name, { is }]) => !same(now[name] ?? [], is));
  return {
    fields: Object.fromEntries(open.map(([name, { is }]) => [name, is])),
    changedSince: version !== kept.version && open.some(([name, { was }]) => name in now && !same(now[name] ?? [], was)),
  };
}

/** The browser's storage, where there is one and it lets us. */
function storage(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

export function readKept(key: string, now: number): Kept | null {
  try {
    const found = JSON.parse(storage()?.getItem(PREFIX + key) ?? 'null') as Kept | null;
    return found && now - found.at < KEEP_MS ? found : null;
  } catch {
    return null;
  }
}

export function dropKept(key: string): void {
  storage()?.removeItem(PREFIX + key);
}

/** Keeps what was typed, or lets go of it where nothing differs. A full storage keeps nothing and says nothing: the form itself still holds the words. */
export function writeKept(key: string, kept: Kept): void {
  if (Object.keys(kept.fields).length === 0) return dropKept(key);
  const text = JSON.stringify(kept);
  if (text.length > LONGEST) return;
  try {
    storage()?.setItem(PREFIX + key, text);
    makeRoom(kept.at);
  } catch {
    /* Full. */
  }
}

function makeRoom(now: number): void {
  const all = Object.keys(storage() ?? {}).filter((key) => key.startsWith(PREFIX));
  if (all.length <= MOST_FORMS) return;
  const byAge = all.map((key) => ({ key, at: readKept(key.slice(PREFIX.length), now)?.at ?? 0 })).sort((a, b) => b.at - a.at);
  for (const { key } of byAge.slice(MOST_FORMS)) storage()?.removeItem(key);
}
