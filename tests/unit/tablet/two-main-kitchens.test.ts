import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { afterAll, expect, it, vi } from 'vitest';
import type { VisitOnFile } from '@/lib/core/tablet';
import { EMPTY, type Snapshot } from '@/lib/tablet/snapshot';
import { aVisit } from './support/office';

const held = vi.hoisted((): { snapshot: unknown } => {
  vi.resetModules();
  return { snapshot: null };
});
// Drawn as on a server, React asks for a second way to read what a screen follows; the tablet, never drawn there, has one.
vi.mock('@/app/(tablet)/round/_lib/use-wide', () => ({ useWide: () => false }));
vi.mock('@/app/(tablet)/round/_lib/tablet-context', () => ({
  useTablet: () => ({}),
  useSnapshot: (of: (snapshot: unknown) => unknown) => of(held.snapshot),
}));
afterAll(() => vi.resetModules());

const visitTo = (id: string, customer: string): VisitOnFile => ({
  ...aVisit(id),
  kitchen: { id, name: 'Main kitchen', customer, address: '12 Quay Street', utcOffsetMinutes: 0 } as VisitOnFile['kitchen'],
});
const visits = [visitTo('a', 'Ash House'), visitTo('b', 'Birch House'), visitTo('c', 'Main kitchen')];
const entry = { id: 'e', kind: 'visit.start', payload: {}, madeAt: '2026-11-25T16:00:00.000Z' };
const kept = { id: 'e', visitId: 'b', seq: 1, waiting: true, entry };

it('a round with two customers’ main kitchens names each with its customer, and one that bears its customer’s name once', async () => {
  held.snapshot = { ...EMPTY, phase: 'ready', visits } satisfies Snapshot;
  const { RoundList } = await import('@/app/(tablet)/round/_components/round-list');
  const drawn = renderToStaticMarkup(createElement(RoundList));
  const bold = [...drawn.matchAll(/<b class="block text-lg [^>]*>([^<]*)<\/b>/g)].map(([, text]) => text);
  expect(bold).toEqual(['Ash House, Main kitchen', 'Birch House, Main kitchen', 'Main kitchen']);
});

it('what waits to be sent, and what the office said, names its kitchen with its customer', async () => {
  held.snapshot = { ...EMPTY, phase: 'ready', visits, entries: new Map([['e', kept]]) };
  const { EntriesPage } = await import('@/app/(tablet)/round/_components/entries-page');
  expect(renderToStaticMarkup(createElement(EntriesPage))).toContain('Birch House, Main kitchen, ');
  const answered = { ...kept, waiting: false, outcome: 'rejected', note: 'No such task.', seen: false };
  held.snapshot = { ...EMPTY, phase: 'ready', visits, entries: new Map([['e', answered]]) };
  const { OfficeAnswers } = await import('@/app/(tablet)/round/_components/office-answers');
  expect(renderToStaticMarkup(createElement(OfficeAnswers))).toContain('>Birch House, Main kitchen</a>');
});
