import type { EntryKind, Payloads } from '@/lib/core/tablet';
import { officeOverHttp } from '@/lib/tablet/office';
import { Tablet } from '@/lib/tablet/tablet';

// The tablet's own code, bundled into a page of the real browser, so that a whole round can be written there at once.

declare global {
  interface Window {
    writeRound: (picture: string, pictures: number) => Promise<{ entries: number; writeMs: number }>;
    sendRound: () => Promise<{ ms: number; waiting: number; trouble: string }>;
  }
}

const tablet = new Tablet({ office: officeOverHttp(''), clock: () => Date.now(), name: { name: 'Bench', appVersion: 'bench' } });
const sha256 = async (bytes: ArrayBuffer) =>
  [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map((b) => b.toString(16).padStart(2, '0')).join('');

/** Arrived everywhere; each unit looked at, read, its tasks done; photos spread over the units. */
window.writeRound = async (picture, pictures) => {
  await tablet.start();
  const began = performance.now();
  const source = Uint8Array.from(atob(picture), (c) => c.charCodeAt(0));
  const write = <K extends EntryKind>(visitId: string, kind: K, payload: Payloads[K], photo?: Parameters<Tablet['write']>[3]) =>
    tablet.write(visitId, kind, payload, photo);
  let entries = 0;
  let taken = 0;
  for (const visit of [...tablet.snapshot.visits]) {
    const at = new Date().toISOString();
    await write(visit.id, 'visit.start', { arrivedAt: at });
    entries++;
    for (const { id: unitId } of visit.units) {
      for (const [aspect, grade] of [
        ['coil', 'matted'],
        ['ice', 'dry'],
        ['drain', 'runs'],
      ] as const)
        await write(visit.id, 'finding.set', { unitId, aspect, phase: 'found', grade, notLookedWhy: '', note: '', replaces: null });
      const values = { headPaGauge: 1_050_000, airInK: 304, steadyMinutes: 15 };
      await write(visit.id, 'reading.add', {
        unitId,
        phase: 'before',
        values,
        gaugeGrade: '1A',
        gaugeSpanPa: 3_447_379,
        entered: { airInK: { text: '87.5', unit: '°F' } },
        questioned: [],
        replaces: null,
      });
      entries += 4;
      for (const task of visit.tasks.filter((t) => t.unitId === unitId)) {
        await write(visit.id, 'task.done', { taskId: task.taskId });
        entries++;
      }
      if (taken >= pictures) continue;
      const whole = new Uint8Array(source.length + 36);
      whole.set(source);
      whole.set(new TextEncoder().encode(crypto.randomUUID()), source.length);
      const hash = await sha256(whole.buffer);
      await write(
        visit.id,
        'photo.attach',
        { unitId, aspect: 'coil', phase: 'before', sha256: hash, bytes: whole.byteLength, takenAt: at },
        { sha256: hash, mime: 'image/jpeg', bytes: whole.buffer },
      );
      taken++;
      entries++;
    }
  }
  return { entries, writeMs: performance.now() - began };
};

window.sendRound = async () => {
  const began = performance.now();
  await tablet.sync();
  const { waiting, photos, lineWords } = tablet.snapshot;
  return { ms: performance.now() - began, waiting: waiting + photos.length, trouble: lineWords };
};
