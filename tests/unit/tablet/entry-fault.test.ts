import { expect, it } from 'vitest';
import { PAYLOADS } from '@/lib/schemas/tablet/entries';
import { entryFault } from '@/lib/features/tablet/verbs/entry-fault';

const unitId = '7b1f7c1e-3c50-4d5e-8a43-0f0a4a1c2d11';
const fault = (kind: keyof typeof PAYLOADS, payload: object) => entryFault(PAYLOADS[kind].safeParse(payload).error?.issues[0]);
const step = (work: object) => ({ recordId: unitId, unitId, step: 'isolate', work, skippedWhy: '', certificateId: null, overruledBy: '', overruledWhy: '', note: '' }); // prettier-ignore

it.each([
  [
    'a number beyond the bound',
    () => fault('part.use', { unitId, what: 'Belt', quantity: -1 }),
    'The entry cannot be filed: “quantity” is outside what can be kept.',
  ],
  [
    'text that is missing',
    () => fault('part.use', { unitId, what: '', quantity: 1 }),
    'The entry cannot be filed: “what” is missing or too short.',
  ],
  [
    'a field that is missing',
    () => fault('part.use', { unitId, quantity: 1 }),
    'The entry cannot be filed: “what” is missing or of another sort.',
  ],
  [
    'something else where yes or no was asked',
    () => fault('signature.set', { nobodyThere: 'maybe', signedBy: 'Ann', png: null }),
    'The entry cannot be filed: “nobody there” is neither yes nor no.',
  ],
  [
    'the same deep in a step of a repair',
    () => fault('sealed.step', step({ step: 'isolate', provenDead: 'no', flammable: null })),
    'The entry cannot be filed: “proven dead” is neither yes nor no.',
  ],
  [
    'words where a number was asked',
    () => fault('part.use', { unitId, what: 'Belt', quantity: 'two' }),
    'The entry cannot be filed: “quantity” is missing or not a number.',
  ],
  [
    'a field more',
    () => fault('task.done', { taskId: unitId, by: 'me' }),
    'The entry cannot be filed: what it says holds more than the office knows.',
  ],
  [
    'a rule of ours',
    () => fault('signature.set', { nobodyThere: false, signedBy: '', png: null }),
    'The entry cannot be filed. Either a signature or nobody there.',
  ],
  [
    'a reading’s number, by the name on the screen',
    () =>
      fault('reading.add', {
        unitId,
        phase: 'before',
        values: { airInK: 999 },
        gaugeGrade: null,
        gaugeSpanPa: null,
        entered: {},
        questioned: [],
        replaces: null,
      }),
    'The entry cannot be filed: air into the coil is outside what can be kept.',
  ],
])('%s', (_, message, expected) => expect(message()).toBe(expected));
