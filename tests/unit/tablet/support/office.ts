import { setTimeout as sleep } from 'node:timers/promises';
import type { ArrivalsTold, Entry, EntryResult, RoundReply, Stop, VisitOnFile } from '@/lib/core/tablet';
import { OfficeError, type DeviceName, type Office } from '@/lib/tablet/office';

type Device = { userId: string; lastSeq: number };

/**
 * An office in memory that keeps the rules of numbers and identities of lib/features/tablet/verbs, so that a test can set it
 * back, slow it down or let it refuse. That the real one keeps them is tested in tests/integration/tablet and tests/faults.
 */
export class OfficeInMemory {
  devices = new Map<string, Device>();
  filed = new Map<string, Entry & { userId: string }>();
  pictures = new Map<string, Set<number>>();
  whole = new Set<string>();
  refuses = new Set<string>();
  /** What it says of an entry, where that is not simply filed. */
  answers = new Map<string, Pick<EntryResult, 'outcome' | 'note'>>();
  signedIn = 'ana';
  visits: VisitOnFile[] = [];
  clock = () => Date.now();
  latency = () => 0;
  backedUpAt: string | null = null;
  uploads = 0;

  private device({ id, holder = this.signedIn }: DeviceName): Device {
    if (holder !== this.signedIn && this.signedIn === 'ana') throw new OfficeError('not_allowed', 'Written by someone else.');
    const device = this.devices.get(id) ?? { userId: holder, lastSeq: 0 };
    this.devices.set(id, device);
    if (device.userId !== holder) throw new OfficeError('not_allowed', 'Written by someone else.');
    return device;
  }

  /** As from a backup: entries beyond the n-th are gone, numbers of devices too. */
  setBackTo(n: number): void {
    for (const id of [...this.filed.keys()].slice(n)) this.filed.delete(id);
    for (const d of this.devices.values()) d.lastSeq = Math.min(d.lastSeq, n);
  }

  /** What it was told of arrivals. */
  arrivalsSent: ArrivalsTold[] = [];

  readonly office: Office = {
    arrivals: (arrived) => {
      this.arrivalsSent.push(arrived);
      return Promise.resolve();
    },
    send: async (name, _sentAt, entries) => {
      const batch = entries.map((k) => structuredClone(k.entry)).sort((a, b) => a.seq - b.seq);
      await sleep(this.latency());
      const device = this.device(name);
      let stopped: Stop | null = null;
      const results = [];
      for (const entry of batch) {
        if (!this.filed.has(entry.id)) {
          stopped = entry.seq <= device.lastSeq ? 'renumber' : entry.seq > device.lastSeq + 1 ? 'gap' : null;
          if (stopped) break;
          this.filed.set(entry.id, { ...entry, userId: device.userId });
        }
        if (entry.seq === device.lastSeq + 1) device.lastSeq = entry.seq;
        results.push({ id: entry.id, outcome: 'applied' as const, note: '', ...this.answers.get(entry.id) });
      }
      const { lastSeq } = device;
      await sleep(this.latency());
      return { results, lastSeq, stopped };
    },
    round: async (name) => {
      await sleep(this.latency());
      if (name.holder && name.holder !== this.signedIn) throw new OfficeError('not_allowed', 'Written by someone else.');
      const { lastSeq } = this.device(name);
      return {
        serverTime: new Date(this.clock()).toISOString(),
        me: { userId: this.signedIn, name: this.signedIn },
        cursor: '',
        order: this.visits.map((v) => v.id),
        changed: structuredClone(this.visits),
        backedUpAt: this.backedUpAt,
        lastSeq,
      } as unknown as RoundReply;
    },
    uploadState: async (sha256) => ({ have: [...(this.pictures.get(sha256) ?? [])], done: this.whole.has(sha256) }),
    upload: async (sha256, index, pieces) => {
      this.uploads++;
      if (this.refuses.has(sha256)) throw new OfficeError('refused', 'The picture is damaged.');
      const have = this.pictures.get(sha256) ?? new Set();
      this.pictures.set(sha256, have.add(index));
      if (have.size === pieces) this.whole.add(sha256);
      return { have: [...have], done: this.whole.has(sha256) };
    },
    thumb: async () => ({ bytes: new ArrayBuffer(1), mime: 'image/jpeg' }),
  };
}

export const aVisit = (id: string): VisitOnFile =>
  ({
    id,
    version: 1,
    status: 'booked',
    startsAt: '2026-11-25T16:00:00.000Z',
    endsAt: '2026-11-25T17:00:00.000Z',
    kitchen: {},
    tasks: [],
    units: [],
    entries: {
      arrivedAt: null,
      leftAt: null,
      findings: [],
      readings: [],
      outcomes: [],
      photos: [],
      parts: [],
      followUps: [],
      foodWarnings: [],
      events: [],
      signature: null,
    },
  }) as unknown as VisitOnFile;
