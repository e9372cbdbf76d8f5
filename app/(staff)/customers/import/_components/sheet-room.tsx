import type { ReactNode } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { ALL_TABS, type SheetView } from '@/lib/core/sheet';
import { Sheet } from '@/app/_ui/page/sheet';
import { Choose } from './choose';
import { SheetColumns } from './sheet-columns';
import { SheetPreview, SheetTold } from './sheet-preview';
import { SheetQuestions, SheetValues } from './sheet-questions';

type Props = {
  runId: string;
  reading: SheetView;
  rowsOnFile: number;
  answer: string;
  ready: ReactNode;
};

const ON_FILE_OPTIONS = [
  { value: 'fill', label: 'Fill in what is blank on file' },
  { value: 'replace', label: 'Let the sheet’s values stand' },
  { value: 'leave', label: 'Leave them as they are' },
];

/** A sheet of any form on its way onto the file: what is to be decided first, then what was understood. */
export function SheetRoom({ runId, reading, rowsOnFile, answer, ready }: Props) {
  const { sheets, chosen, tabs = 0 } = reading;
  const each = sheets.map((name, i) => ({ value: String(i), label: name || `Sheet ${i + 1}` }));
  const all = tabs > 1 ? [{ value: String(ALL_TABS), label: `All ${tabs} with the same columns` }] : [];
  return (
    <>
      {sheets.length > 1 ? (
        <div className="max-w-sm">
          <Choose runId={runId} of="sheet" about="sheet" value={String(chosen)} options={[...all, ...each]} label="Sheet of the workbook" />
        </div>
      ) : null}
      <SheetQuestions runId={runId} questions={reading.questions} groups={reading.groups} />
      {rowsOnFile > 0 ? (
        <Sheet title={`${counted(rowsOnFile, 'row')} about units on file`}>
          <div className="max-w-sm">
            <Choose
              runId={runId}
              of="answer"
              about="known"
              value={answer}
              options={ON_FILE_OPTIONS}
              label="What to do with those units and their kitchens"
            />
          </div>
          <p className="mt-1 text-sm text-soft">Found again by tag, serial, or name in the kitchen. Nothing of them goes on file twice.</p>
        </Sheet>
      ) : null}
      {ready}
      <SheetPreview lines={reading.lines} all={reading.rows} />
      <SheetTold assumptions={reading.assumptions} />
      <SheetColumns runId={runId} columns={reading.columns} headerLine={reading.headerLine} />
      {reading.moreGroups > 0 ? (
        <p className="text-soft">{counted(reading.moreGroups, 'more value')} in this sheet; they come up as these are decided.</p>
      ) : null}
      <SheetValues runId={runId} questions={reading.questions} groups={reading.groups} />
    </>
  );
}
