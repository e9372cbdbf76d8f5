import 'server-only';
import type { ComponentProps } from 'react';
import type { Language } from '../../core/customer-words';
import { LabelSheetDocument } from './label-sheet';
import { onPaper, renderPdf } from './pdf';
import { QuarterPaper } from './quarter-paper';
import { QuotePaper } from './quote-paper';
import { ReportPaper } from './report-paper';

type Said<Props extends { onFile: object }> = { onFile: Props['onFile']; language: Language };

/** What is to go on paper: plain data that a thread can be handed. */
export type PaperAsked =
  | ({ kind: 'report' } & Said<ComponentProps<typeof ReportPaper>>)
  | ({ kind: 'quarter' } & Said<ComponentProps<typeof QuarterPaper>>)
  | ({ kind: 'quote' } & Said<ComponentProps<typeof QuotePaper>>)
  | ({ kind: 'labels' } & Omit<ComponentProps<typeof LabelSheetDocument>, 'missing'>);

/** A paper as PDF, made where it is called: some tenths of a second to some seconds of one core. */
export async function makePaper(asked: PaperAsked): Promise<Uint8Array<ArrayBuffer>> {
  switch (asked.kind) {
    case 'report':
      return renderPdf(<ReportPaper {...await onPaper(asked.onFile, asked.language)} />);
    case 'quarter':
      return renderPdf(<QuarterPaper {...await onPaper(asked.onFile, asked.language)} />);
    case 'quote':
      return renderPdf(<QuotePaper {...await onPaper(asked.onFile, asked.language)} />);
    case 'labels': {
      // What is scanned names the tag as it is on file; what is read is put in letters that the font has.
      const { onFile, missing } = await onPaper({ labels: asked.labels }, 'en');
      const labels = onFile.labels.map((label, i) => ({ ...label, address: asked.labels[i]?.address ?? '' }));
      return renderPdf(<LabelSheetDocument title={asked.title} labels={labels} missing={missing} />);
    }
  }
}
