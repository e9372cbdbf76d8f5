import 'server-only';
import Papa from 'papaparse';
import { todayIn } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { GRADES } from '../../../core/findings/grades';
import { guarded } from '../../../core/fleet-csv';
import { RIGHT_DAYS } from '../../../core/owner/days';
import { periodOf } from '../../../core/owner/period';
import type { Tx } from '../../../database/client';
import { shopTimeZone } from '../../shop/reads/shop';
import { looksOf } from '../reads/foresights';

/** More than a sheet of paper or a program for sheets is glad of; the days narrow it. */
const MOST = 20_000;
const GRADE = GRADES.coil.map((g) => g.grade);
const COLUMNS = [
  'day', 'unit', 'kind', 'kitchen', 'customer', 'looked', 'found', ...GRADE.map((g) => `chance ${g}`), 'likely', 'chance of the likely',
  'mats from', 'mats until', 'ln conductance expected', 'its sd', 'ln conductance read', 'its sd', 'looks and readings before', 'written down', 'visit',
]; // prettier-ignore
const day = (at: Date | null) => (at ? toLocalDate(at) : '');
const figure = (x: number | null) => (x === null ? '' : x.toFixed(4));

/** A line for each look behind the shares of “Is it right?”, the newest first, as CSV (UTF-8, RFC 4180). A last line says what is left out. */
export async function exportLooks({ db, now }: { db: Tx; now: Date }, query: { from?: string; until?: string }): Promise<string> {
  const { from, to } = periodOf(query, todayIn(await shopTimeZone(db), now.getTime()), RIGHT_DAYS);
  const rows = await looksOf(db, from, to, MOST + 1);
  const lines = rows.slice(0, MOST).map((f) => [
    day(f.on), guarded(f.unit), f.kind, guarded(f.kitchen), guarded(f.customer), guarded(f.who ?? ''), f.found ?? '', ...GRADE.map((_, i) => figure(f.chances[i] ?? null)),
    f.likely.map((i) => GRADE[i]).join(' '), figure(f.likelyChance), day(f.mattedFrom), day(f.mattedTo), figure(f.lnK), figure(f.lnKSd),
    figure(f.readLnK), figure(f.readLnKSd), f.evidence, f.madeAt.toISOString(), f.visitId,
  ]); // prettier-ignore
  const rest = rows.length > MOST ? [[`Only the newest ${MOST} looks of these days: narrow them to have the others.`]] : [];
  return `\uFEFF${Papa.unparse([COLUMNS, ...lines, ...rest], { newline: '\r\n' })}\r\n`;
}
