import { holderOnDisk, keepHolder } from './holder-on-disk';

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

/** Whose work this tablet holds, also where it fell before the browser wrote that down. */
export const holderOrOnDisk = async (): Promise<string | null> => holder() ?? (await holderOnDisk());

export function people(): Person[] {
  try {
    return JSON.parse(storage()?.getItem(PEOPLE) ?? '[]') as Person[];
  } catch {
    return [];
  }
}

export async function remember(person: Person): Promise<void> {
  storage()?.setItem(HOLDER, person.userId);
  storage()?.setItem(PEOPLE, JSON.stringify([...people().filter((p) => p.userId !== person.userId), person]));
  await keepHolder(person.userId);
}

/** Someone signed in: the tablet is not to open another's work for them. */
export async function handTo(userId: string | undefined): Promise<void> {
  if ((await holderOrOnDisk()) !== userId) await letGo();
}

/** After sign-out nobody holds the tablet; their databases stay. */
export async function letGo(): Promise<void> {
  storage()?.removeItem(HOLDER);
  await keepHolder(null);
}
