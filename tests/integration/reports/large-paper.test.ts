import { mkdirSync, writeFileSync } from 'node:fs';
import { createElement } from 'react';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { ReportPaper } from '@/lib/server/papers/report-paper';
import { paperOfVisit } from '@/lib/features/reports/verbs/open-report';
import { renderPdf } from '@/lib/server/papers/pdf';
import { unitRow, visitRow } from '@/prisma/seed/rows';
import { haveOneUnit } from '../../support/factories';
import { useDatabase } from '../../support/database';
import { havePicture, picturesIn } from '@/tests/support/pictures';

// The largest paper that is promised: ten seconds and 5 MB. Outside `npm test`, which it would hold up:
// PAPER=1 npx vitest run --project integration tests/integration/reports/large-paper
const measured = process.env.PAPER ? it : it.skip;
const database = useDatabase();
const UNITS = 40;
const PHOTOS = 3;
const at = new Date('2026-11-27T15:00:00Z');

/** A gradient with grain: a coil photographed in bad light packs about as badly. */
const picture = async (hue: number) =>
  new Uint8Array(
    await sharp({
      create: {
        width: 1600,
        height: 1200,
        channels: 3,
        background: { r: hue, g: 120, b: 140 },
        noise: { type: 'gaussian', mean: 120, sigma: 12 },
      },
    })
      .jpeg({ quality: 80 })
      .toBuffer(),
  );

measured('40 units with 120 photos are on paper in ten seconds and 5 MB', { timeout: 180_000 }, async () => {
  const { db } = database;
  const pictures = await Promise.all(Array.from({ length: UNITS * PHOTOS }, (_, i) => picture(60 + i)));
  const { kitchen, person } = await haveOneUnit(db);
  const units = Array.from({ length: UNITS }, (_, i) => unitRow(kitchen.id, { name: `Reach-in ${i + 1}` }));
  await db.unit.createMany({ data: units });
  const visit = await db.visit.create({
    data: { ...visitRow(kitchen.id, person.id, at, 240), status: 'done', closedAt: at, nobodyThere: true },
  });
  let made = 0;
  for (const u of units) {
    const row = { visitId: visit.id, unitId: String(u.id), at };
    await db.finding.createMany({
      data: [
        { ...row, aspect: 'coil', grade: 'matted' },
        { ...row, aspect: 'coil', grade: 'bare', phase: 'left' },
        { ...row, aspect: 'drain', grade: 'slow' },
      ],
    });
    for (let i = 0; i < PHOTOS; i++) {
      const bytes = pictures[made++ % pictures.length] ?? new Uint8Array();
      const sha256 = `${String(u.id)}${i}`;
      const file = await havePicture(db, bytes, { sha256 });
      await db.photo.create({
        data: {
          id: crypto.randomUUID(),
          visitId: visit.id,
          unitId: String(u.id),
          phase: i ? 'after' : 'before',
          takenAt: at,
          sha256,
          fileId: file.id,
        },
      });
    }
  }
  const start = performance.now();
  const onFile = await paperOfVisit({ db, pictures: picturesIn(db) }, visit.id, 'en');
  const read = performance.now();
  const pdf = await renderPdf(createElement(ReportPaper, { onFile }) as never);
  const done = performance.now();
  const seconds = (ms: number) => (ms / 1000).toFixed(1);
  console.log(`pictures ${seconds(read - start)} s, paper ${seconds(done - read)} s, ${(pdf.length / 1e6).toFixed(2)} MB`);
  mkdirSync('.data/reports', { recursive: true });
  writeFileSync('.data/reports/large-paper.pdf', pdf);
  expect(
    Buffer.from(pdf)
      .toString('latin1')
      .match(/\/Subtype \/Image/g),
  ).toHaveLength(UNITS * PHOTOS);
  expect(done - start).toBeLessThan(10_000);
  expect(pdf.length).toBeLessThan(5_000_000);
});
