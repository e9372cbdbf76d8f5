import { extractText, getDocumentProxy } from 'unpdf';
import { expect } from 'vitest';
import type { Language } from '@/lib/core/customer-words';
import type { Db } from '@/lib/database/client';

const flat = (text: string) => text.normalize().replace(/\s+/g, ' ').trim();

/** The text of a PDF in reading order, without what stands at the foot of each page. `foot`: its line beside the page number. */
export async function textOfPaper(pdf: Uint8Array, foot: string): Promise<string> {
  const { text, totalPages } = await extractText(await getDocumentProxy(pdf.slice()));
  return flat(
    text
      .map((page, i) =>
        flat(page)
          .replace(flat(foot), '')
          .replace(`${i + 1} / ${totalPages}`, ''),
      )
      .join(' '),
  );
}

export const picturesOnPaper = (pdf: Uint8Array): number =>
  [
    ...Buffer.from(pdf)
      .toString('latin1')
      .matchAll(/\/Subtype \/Image/g),
  ].length;

/** Each of these stands in the text, in this order. */
export function expectInOrder(text: string, lines: readonly string[]): void {
  let from = 0;
  for (const line of lines) {
    const at = text.indexOf(flat(line), from);
    expect(at, `“${line}” after “${text.slice(Math.max(0, from - 60), from)}”`).toBeGreaterThanOrEqual(0);
    from = at + 1;
  }
}

// What each grade of a coil must be told by, in the test's own choice of words.
const COIL: Record<Language, Record<string, RegExp>> = {
  en: { bare: /coil was clean/, filmed: /film of dirt/, furred: /Lint or grease/, matted: /matted/, packed: /packed shut/ },
  es: { bare: /estaba limpio/, filmed: /película/, furred: /pelusa o grasa/, matted: /cubierto/, packed: /tapado/ },
};
const fahrenheit = (kelvin: number) => Math.round((kelvin - 273.15) * 1.8 + 32);
const dayOf = (on: Date, language: Language) =>
  on.toLocaleDateString(language === 'en' ? 'en-US' : 'es-US', { month: 'long', day: 'numeric', timeZone: 'UTC' });

/** What the database holds of a visit, asked anew and row by row, stands on the paper of its report. @returns how many facts were compared */
export async function expectRowsOnPaper(db: Db, visitId: string, text: string, language: Language): Promise<number> {
  const [visit, findings, readings, warnings, parts, jobs] = await Promise.all([
    db.visit.findUniqueOrThrow({ where: { id: visitId }, include: { kitchen: true, technician: true } }),
    db.finding.findMany({ where: { visitId, supersededAt: null }, orderBy: [{ at: 'asc' }, { id: 'asc' }] }),
    db.reading.findMany({ where: { visitId, supersededAt: null }, include: { estimate: true }, orderBy: [{ at: 'asc' }, { id: 'asc' }] }),
    db.foodWarning.findMany({ where: { visitId } }),
    db.partUsed.findMany({ where: { visitId } }),
    db.job.findMany({ where: { foundVisitId: visitId, closedAt: null } }),
  ]);
  const ids = [...new Set([...findings, ...readings].map((row) => row.unitId))];
  const units = await db.unit.findMany({ where: { id: { in: ids } }, include: { tasks: { where: { active: true } } } });
  let facts = 0;
  const told = (what: string | RegExp, where: string) => {
    facts++;
    if (typeof what === 'string') expect(where).toContain(flat(what));
    else expect(where).toMatch(what);
  };
  told(visit.kitchen.name, text);
  told(visit.technician.name, text);
  // A unit's part of the paper ends where the next one begins.
  const begins = units.map((u) => ({
    u,
    at: text.indexOf(` ${flat(u.name)} `, text.indexOf(language === 'en' ? 'What was found' : 'Lo que se encontró')),
  }));
  const starts = begins.map((b) => b.at).toSorted((a, b) => a - b);
  for (const { u, at } of begins) {
    expect(at, u.name).toBeGreaterThanOrEqual(0);
    const part = text.slice(
      at,
      starts.find((s) => s > at),
    );
    const coil = (phase: string) => findings.findLast((f) => f.unitId === u.id && f.aspect === 'coil' && f.phase === phase)?.grade;
    const [found, left] = [coil('found'), coil('left')];
    if (found) told(COIL[language][found] ?? /never/, part);
    if (left && found && left !== found)
      told(left === 'bare' || left === 'filmed' ? /left clean|Quedó limpio/ : (COIL[language][left] ?? /never/), part);
    for (const phase of ['before', 'after']) {
      const estimate = readings.findLast((r) => r.unitId === u.id && r.phase === phase)?.estimate;
      const rise = (estimate?.result as { riseK?: { value: number } } | undefined)?.riseK;
      // An estimate that cannot say tells the customer nothing.
      if (rise && estimate?.status === 'ok') told(new RegExp(`\\b${Math.round(rise.value * 1.8)}(\\.\\d)? °F`), part);
    }
    for (const t of u.tasks) told(dayOf(t.dueOn, language), part);
    for (const p of parts.filter((x) => x.unitId === u.id)) told(`${p.quantity} × ${p.what}`, part);
  }
  for (const w of warnings) {
    told(`${fahrenheit(w.boxK)} °F`, text);
    told(w.toldTo, text);
  }
  for (const j of jobs) told(j.what, text);
  return facts;
}
