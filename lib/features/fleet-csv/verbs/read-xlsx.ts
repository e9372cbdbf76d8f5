import readExcelFile from 'read-excel-file/node';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { RawSheet } from '../../../core/sheet';

/** What a workbook may unpack to: ten times a large fleet's. */
const MOST_UNPACKED = 120_000_000;
const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;

/** Bytes that a zip says it unpacks to (its central directory, PKWARE APPNOTE 4.3.12). */
export function unpackedSize(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== END_OF_DIRECTORY) end--;
  if (end < 0) throw new Error('no zip');
  let at = view.getUint32(end + 16, true);
  let sum = 0;
  for (let n = view.getUint16(end + 10, true); n > 0; n--) {
    if (view.getUint32(at, true) !== DIRECTORY_ENTRY) throw new Error('no zip');
    sum += view.getUint32(at + 24, true);
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return sum;
}

function text(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) return Number.isNaN(cell.getTime()) ? '' : toLocalDate(cell);
  // A whole number typed as one, without the noise of its binary form.
  if (typeof cell === 'number') return String(Number(cell.toPrecision(15)));
  return typeof cell === 'boolean' ? (cell ? 'yes' : 'no') : String(cell);
}

/** All sheets of a workbook as texts; dates as 2024-03-16. @throws Error when it is none, or unpacks to more than it may */
export async function readXlsx(bytes: Uint8Array): Promise<RawSheet[]> {
  if (unpackedSize(bytes) > MOST_UNPACKED) throw new Error('too large');
  const sheets = await readExcelFile(Buffer.from(bytes));
  return sheets.map(({ sheet, data }) => ({ name: sheet, rows: data.map((row) => row.map(text)) }));
}
