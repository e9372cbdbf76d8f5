import { IDBFactory } from 'fake-indexeddb';
import { officeOverHttp } from '@/lib/tablet/office';
import { Tablet } from '@/lib/tablet/tablet';
import type { FaultyLine } from './faulty-line';

const DAY = 86_400_000;

/** A tablet of its own: its storage outlives the program on it, its clock may be wrong, its line may be bad. */
export class Device {
  private readonly disk = new IDBFactory();
  private readonly notes = new Map<string, string>();
  tablet!: Tablet;

  constructor(
    private readonly base: string,
    readonly line: FaultyLine,
    public skewMs = 0,
  ) {}

  readonly clock = () => Date.now() + this.skewMs;

  /** Starts the program, as after a fall: only what was on the disk is known. Waits until it shows the round. */
  async start(): Promise<void> {
    const world = globalThis as unknown as { indexedDB: IDBFactory; localStorage: unknown };
    // The storage of one tablet at a time is the world's; the database stays open afterwards.
    world.indexedDB = this.disk;
    world.localStorage = {
      getItem: (k: string) => this.notes.get(k) ?? null,
      setItem: (k: string, v: string) => void this.notes.set(k, v),
      removeItem: (k: string) => void this.notes.delete(k),
    };
    this.tablet = new Tablet({
      office: officeOverHttp(this.base, this.line.fetch),
      clock: this.clock,
      name: { name: 'Fault test', appVersion: 'test' },
    });
    await this.tablet.start();
  }

  /** Dropped: whatever ran is gone, and the clock may come back wrong. */
  async fall(clockJump: number): Promise<void> {
    this.tablet.database?.close();
    this.skewMs += clockJump * DAY;
    await this.start();
  }

  get unsent(): number {
    return this.tablet.snapshot.waiting + this.tablet.snapshot.photos.length;
  }
}
