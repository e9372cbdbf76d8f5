import { createElement } from 'react';
import { extractText, getDocumentProxy } from 'unpdf';
import { expect, it } from 'vitest';
import { ReportPaper } from '@/lib/server/papers/report-paper';
import type { CustomerReport, ShopOnReport } from '@/lib/core/reports/visit-for-customer';
import { onPaper, renderPdf } from '@/lib/server/papers/pdf';

const shop: ShopOnReport = { name: 'Larkspur Cold', phone: '', email: '', footer: '', logo: null };
const report: CustomerReport = {
  language: 'en',
  title: 'A long visit',
  lead: [],
  work: [],
  food: [],
  signature: { line: '', png: null },
  // Pages are what it is about: few units with much to say of each make as many in a fifth of the time.
  units: Array.from({ length: 60 }, (_, i) => ({
    id: String(i),
    name: `Reach-in ${i}`,
    lines: [Array.from({ length: 22 }, () => 'The condenser coil was matted. It was left clean.').join('\n')],
    next: [],
    photos: { before: [], after: [] },
  })),
};

it('is written to its last page, however many there are, with the number at the foot of each', { timeout: 60_000 }, async () => {
  const pdf = await renderPdf(createElement(ReportPaper, { onFile: { report, shop, pictures: new Map() } }) as never);
  const { text, totalPages } = await extractText(await getDocumentProxy(pdf));
  expect(totalPages).toBeGreaterThan(24);
  text.forEach((page, i) => expect(page.replace(/\s+/g, ' ')).toContain(`${i + 1} / ${totalPages}`));
  expect(text.join(' ')).toContain('Reach-in 59');
});

it('says where it has no letters, instead of an empty box', async () => {
  const names = ['Bánh mì Đà Lạt', 'Ταβέρνα', 'Кухня', 'दुकान', '金龍 Kitchen', 'مطعم'];
  const few = { ...report, units: names.map((name, i) => ({ ...report.units[0]!, id: String(i), name })) };
  const paper = await onPaper({ report: few, shop, pictures: new Map<string, Uint8Array>() }, 'es');
  expect(paper.onFile.report.units.map((u) => u.name)).toEqual([...names.slice(0, 4), '[?] Kitchen', '[?]']);
  const { text } = await extractText(await getDocumentProxy(await renderPdf(createElement(ReportPaper, paper) as never)));
  for (const name of ['Bánh mì Đà Lạt', 'Ταβέρνα', 'Кухня', '[?] Kitchen', 'figuran como [?]'])
    expect(text.join(' ').replace(/\s+/g, ' ')).toContain(name);
  expect((await onPaper({ report, shop }, 'en')).missing).toEqual([]);
});

it('can be read as text whatever was printed before: a letter that was a part of another one stays a letter', async () => {
  const textOf = async (lead: string) => {
    const onFile = { report: { ...report, units: [], lead: [lead] }, shop, pictures: new Map() };
    const { text } = await extractText(await getDocumentProxy(await renderPdf(createElement(ReportPaper, { onFile }) as never)));
    return text.join(' ').normalize();
  };
  for (const lead of ['Čevapi, Łódź, Şölen, Ằ', 'Cold Box: ABCDEFGHIJKLMNOPQRSTUVWXYZ, abcdefghijklmnopqrstuvwxyz'])
    expect(await textOf(lead)).toContain(lead);
});
