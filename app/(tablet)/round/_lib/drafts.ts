import type { Database } from '@/lib/tablet/database';

/** What is typed under one name, and whether the tablet could keep it. Replaced, never changed. */
export type Slot = { readonly value: unknown; readonly kept: boolean };
const NOTHING: Slot = { value: undefined, kept: true };

/** Drafts of one database. Two places on a screen that show the same draft show the same thing at once. */
export class Drafts {
  private readonly slots = new Map<string, Slot>();
  private readonly asked = new Set<string>();
  private readonly listeners = new Set<() => void>();

  constructor(private readonly database: Database | null) {}

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  private set(name: string, slot: Slot): void {
    this.slots.set(name, slot);
    for (const l of this.listeners) l();
  }

  /** What is known of it now; the first question also asks the disk. */
  read(name: string): Slot {
    if (!this.asked.has(name)) {
      this.asked.add(name);
      void this.database
        ?.get('meta', name)
        .then((value) => {
          // What was typed before the kept draft had been read is the newer.
          if (value !== undefined && !this.slots.has(name)) this.set(name, { value, kept: true });
        })
        .catch(() => {});
    }
    return this.slots.get(name) ?? NOTHING;
  }

  write(name: string, value: unknown): void {
    const kept = this.slots.get(name)?.kept ?? true;
    this.set(name, { value, kept: this.database === null ? false : kept });
    const keptIs = (kept: boolean) => {
      const now = this.slots.get(name);
      if (now && now.value === value && now.kept !== kept) this.set(name, { value, kept });
    };
    void this.database?.put('meta', value, name).then(
      () => keptIs(true),
      () => keptIs(false),
    );
  }

  clear(name: string): void {
    this.set(name, NOTHING);
    void this.database?.delete('meta', name).catch(() => {});
  }
}

const held = new WeakMap<object, Drafts>();
const KEPT_NOWHERE = {};

export function draftsOf(database: Database | null): Drafts {
  const key = database ?? KEPT_NOWHERE;
  const drafts = held.get(key) ?? new Drafts(database);
  held.set(key, drafts);
  return drafts;
}
