import { createElement } from 'react';
import { it } from 'vitest';
import { QuarterPaper } from '@/lib/server/papers/quarter-paper';
import { localDate } from '@/lib/core/calendar';
import { quarterOf } from '@/lib/core/reports/quarter';
import { quarterForCustomer, type QuarterKitchen, type QuarterUnit } from '@/lib/core/reports/quarter-for-customer';
import { expectInOrder, textOfPaper } from '@/tests/support/paper';
import { renderPdf } from '@/lib/server/papers/pdf';

const on = localDate('2026-08-03');
const unit = (i: number): QuarterUnit => ({
  id: `u${i}`,
  name: `Walk-in ${i}`,
  days: [
    {
      on,
      found: [{ aspect: 'coil', grade: i % 2 ? 'matted' : 'filmed' }],
      done: [{ kind: 'coil_cleaning', label: 'Coil cleaning' }],
      reached: true,
    },
  ],
  coil: [],
  cost: { value: 0.2 + i / 10, lo: 0.1, hi: 0.9, currency: 'USD', on },
  next: [{ kind: 'coil_cleaning', task: 'Coil cleaning', dueOn: '2026-10-05', rule: 'FREQ=WEEKLY;INTERVAL=8', ruleBefore: null }],
});
const kitchen = (k: number): QuarterKitchen => ({
  id: `k${k}`,
  name: `Muelle ${k}`,
  visits: [on],
  nextVisit: localDate('2026-10-08'),
  finished: k,
  jobs: [{ unitNames: ['Walk-in 1'], what: 'Empaque roto', urgency: 'week' }],
  units: Array.from({ length: 6 }, (_, i) => unit(i)),
});

it.each(['en', 'es'] as const)('a quarter on paper says every line of the summary, in its order (%s)', async (language) => {
  const report = quarterForCustomer('Faro', quarterOf(on), [kitchen(1), kitchen(2)], language);
  const shop = { name: 'Larkspur Cold', phone: '555 0100', email: '', footer: 'Gracias.', logo: null };
  const pdf = await renderPdf(createElement(QuarterPaper, { onFile: { report, shop } }) as never);
  const said = await textOfPaper(pdf, 'Larkspur Cold · 555 0100');
  const lines = [
    report.title,
    ...report.lead,
    ...report.kitchens.flatMap((k) => [
      k.name,
      ...k.lines,
      ...k.work.map((w) => w.what),
      ...k.units.flatMap((u) => [u.name, ...u.lines, ...u.next]),
    ]),
    'Gracias.',
  ];
  expectInOrder(said, lines);
});

it('ends no line within a word, whatever letters are often drawn as one', async () => {
  const footer = Array.from({ length: 40 }, (_, i) => `the first office coffee of fifty-${i} flows off`).join(', ');
  const shop = { name: 'Larkspur Cold', phone: '555 0100', email: '', footer, logo: null };
  const report = quarterForCustomer('Faro', quarterOf(on), [kitchen(1)], 'en');
  const pdf = await renderPdf(createElement(QuarterPaper, { onFile: { report, shop } }) as never);
  expectInOrder(await textOfPaper(pdf, 'Larkspur Cold · 555 0100'), [footer]);
});
