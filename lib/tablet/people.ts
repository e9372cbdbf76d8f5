/** Who has worked on this tablet: kept outside their databases, so that it can be asked without opening them. */
type Person = { userId: string; name: string };
const HOLDER = 'rimebook.holder';
const PEOPLE = 'rimebook.people';

/** Storage that may be switched off: then the tablet remembers nobody. */
function storage(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}

export const holder = (): string | null => storage()?.getItem(HOLDER) ?? null;

export function people(): Person[] {
  try {
    return JSON.parse(storage()?.getItem(PEOPLE) ?? '[]') as Person[];
  } catch {
    return [];
  }
}

export function remember(person: Person): void {
  storage()?.setItem(HOLDER, person.userId);
  storage()?.setItem(PEOPLE, JSON.stringify([...people().filter((p) => p.userId !== person.userId), person]));
}

/** Someone signed in: the tablet is not to open another's work for them. */
export function handTo(userId: string | undefined): void {
  if (holder() !== userId) letGo();
}

/** After sign-out nobody holds the tablet; their databases stay. */
export const letGo = (): void => storage()?.removeItem(HOLDER);
