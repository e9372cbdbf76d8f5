import type { Entry } from '@/lib/core/tablet';
import type { Db } from '@/lib/database/client';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { Device } from './a-device';
import { closingEntries, someEntry, type Made } from './entries';
import { FaultyLine, type Fault } from './faulty-line';
import { judge, type Verdict } from './judge';
import { somePicture } from './pictures';
import { randomFrom, type Random } from './random';
import { haveRound, putAway, type People } from './shop';

export type World = {
  db: Db;
  base: string;
  people: People;
  cutDatabase: () => Promise<void>;
  killOffice: () => Promise<void>;
  count: (what: Fault | 'tablet_fell' | 'moved_away') => void;
};
export type RunReport = Verdict & { entries: number; photos: number };

const TRIES = 40;

/** One day of one technician on a bad line; then the line is good again and both ends are compared. */
export async function oneRun(world: World, seed: number): Promise<RunReport> {
  const random = randomFrom(seed);
  const { db, people } = world;
  const round = await haveRound(db, people);
  const before = await visitsOnFile(db, round.visitIds, people.personId);
  const lines = Array.from({ length: random.chance(0.35) ? 2 : 1 }, () => new FaultyLine({ ...world, random }, people.cookie));
  const devices: Device[] = [];
  for (const line of lines) {
    await line.heal();
    const device = new Device(world.base, line, random.pick([0, 0, 0, 86_400_000, -86_400_000, 90_000]));
    await device.start();
    devices.push(device);
    line.spoil();
  }
  const day = new Day(world, random, devices, round.visitIds);
  for (let step = 10 + random.whole(22); step > 0; step--) await day.step();
  if (random.chance(0.5)) await day.close();
  await day.settle();
  const verdict = await judge(db, { devices, written: day.written, visitIds: round.visitIds, personId: people.personId, before });
  for (const d of devices) d.tablet.database?.close();
  await putAway(db, round);
  return { ...verdict, entries: day.written.length, photos: day.photos };
}

class Day {
  readonly written: Entry[] = [];
  photos = 0;
  moved = false;
  private talking: Promise<unknown>[] = [];

  constructor(
    private readonly world: World,
    private readonly random: Random,
    private readonly devices: readonly Device[],
    private readonly visitIds: readonly string[],
  ) {}

  async step(): Promise<void> {
    const device = this.random.pick(this.devices);
    const what = this.random.weighted({ write: 66, photo: 4, talk: 24, fall: 4, move: 1 });
    if (what === 'talk') this.talking.push(device.tablet.sync());
    if (what === 'fall') {
      this.world.count('tablet_fell');
      await Promise.all(this.talking.splice(0));
      await device.fall(this.random.pick([0, 0, 0, 1, -1]));
    }
    if (what === 'move') await this.moveAway();
    const visit = this.random.pick(device.tablet.snapshot.visits.filter((v) => this.visitIds.includes(v.id)));
    if (!visit) return;
    if (what === 'write') await this.write(device, someEntry(this.random, visit, device.clock));
    if (what === 'photo') {
      const picture = await somePicture(this.random);
      const payload = {
        unitId: this.random.pick(visit.units).id,
        aspect: 'coil' as const,
        phase: 'before' as const,
        sha256: picture.sha256,
        bytes: picture.bytes.byteLength,
        takenAt: new Date(device.clock()).toISOString(),
      };
      await this.write(device, { visitId: visit.id, kind: 'photo.attach', payload }, picture);
      this.photos++;
    }
  }

  private async write(device: Device, made: Made, picture?: Awaited<ReturnType<typeof somePicture>>): Promise<void> {
    const id = await device.tablet.write(made.visitId, made.kind, made.payload, picture);
    const kept = device.tablet.snapshot.entries.get(id);
    if (!kept) throw new Error('The tablet does not show what it says it saved.');
    this.written.push(kept.entry);
  }

  async close(): Promise<void> {
    const device = this.random.pick(this.devices);
    const visit = device.tablet.snapshot.visits.find((v) => v.id === this.visitIds[0] && v.status !== 'done');
    if (visit) for (const made of closingEntries(visit, device.clock)) await this.write(device, made);
  }

  /** The office gives the second visit to someone else while the tablets may be without signal. */
  private async moveAway(): Promise<void> {
    if (this.moved) return;
    this.world.count('moved_away');
    this.moved = true;
    await this.world.db.visit.updateMany({
      where: { id: this.visitIds[1], status: { in: ['booked', 'started'] } },
      data: { technicianId: this.world.people.otherId, version: { increment: 1 } },
    });
  }

  /** The line is good again: everything goes, late deliveries too, and every tablet refreshes once more. */
  async settle(): Promise<void> {
    await Promise.all(this.talking.splice(0));
    for (const d of this.devices) await d.line.heal();
    for (const d of this.devices) for (let n = 0; n < TRIES && (n === 0 || d.unsent > 0); n++) await d.tablet.sync();
    for (const d of this.devices) await d.tablet.sync();
  }
}
