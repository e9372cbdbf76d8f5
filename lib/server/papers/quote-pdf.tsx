import 'server-only';
import { Document, Image as Picture, Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '../../core/customer-words';
import { money, quoteLineWords, quoteSums } from '../../core/jobs';
import { toLocalDate } from '../../core/calendar/date-column';
import { customerFullDate } from '../../core/calendar/when';
import type { PrintedQuote } from '../../features/jobs/reads/quotes';
import { PAPER_FONT } from '../../core/reports/paper-fonts';
import { onPaper, renderPdf } from './pdf';

const s = StyleSheet.create({
  page: { padding: 48, fontFamily: PAPER_FONT, fontSize: 10, color: '#1a2126', lineHeight: 1.4 },
  shop: { fontWeight: 700, fontSize: 12, marginBottom: 2 },
  title: { fontWeight: 700, fontSize: 18, lineHeight: 1.3, marginTop: 24, marginBottom: 6 },
  reason: { marginVertical: 12, fontSize: 11 },
  row: { flexDirection: 'row', borderBottomWidth: 0.5, borderColor: '#84897f', paddingVertical: 4 },
  what: { flex: 1 },
  number: { width: 80, textAlign: 'right' },
  bold: { fontWeight: 700 },
  photos: { flexDirection: 'row', flexWrap: 'wrap', gap: 8, marginTop: 16 },
  photo: { width: 160, height: 120, objectFit: 'cover' },
});

type Shop = { name: string; phone: string | null; email: string | null } | null;

/** A quote on paper: the reason, the lines, what it comes to, until when it holds, and the pictures. */
export async function quotePdf(
  given: PrintedQuote,
  from: Shop,
  photos: readonly { id: string; bytes: Uint8Array }[],
): Promise<Uint8Array<ArrayBuffer>> {
  const { language } = given.job.kitchen.customer;
  const { onFile, missing } = await onPaper({ quote: given, shop: from }, language);
  const { quote, shop } = onFile;
  const { job, lines } = quote;
  const say = wordsIn(language).quote;
  const title = say.title(`${job.number}-${quote.version}`);
  const sums = quoteSums(lines, quote.taxPercent);
  const cash = (cents: number) => money(cents, quote.currency);
  return renderPdf(
    <Document title={title} author={shop?.name} creator="Rimebook" language={language}>
      <Page size={quote.currency === 'USD' ? 'LETTER' : 'A4'} style={s.page}>
        <Text style={s.shop}>{shop?.name ?? title}</Text>
        <Text>{[shop?.phone, shop?.email].filter(Boolean).join(' · ')}</Text>
        <Text style={s.title}>{title}</Text>
        <Text>
          {job.kitchen.customer.name}, {job.kitchen.name}
        </Text>
        <Text>{job.kitchen.address}</Text>
        <Text>{job.units.map(({ unit }) => `${unit.name} (${unit.tag})`).join(', ')}</Text>
        <Text style={s.reason}>{quote.reason}</Text>
        {missing.map((line) => (
          <Text key={line}>{line}</Text>
        ))}
        {lines.map((l, i) => (
          <View key={i} style={s.row} wrap={false}>
            <Text style={s.what}>
              {quoteLineWords(l.kind, say.kind[l.kind], l.what)}
              {l.partNumber ? ` (${l.partNumber})` : ''}
            </Text>
            <Text style={s.number}>
              {l.quantity} {say.unit(l.unit)}
            </Text>
            <Text style={s.number}>{cash(l.priceCents)}</Text>
            <Text style={s.number}>{cash(sums.lines[i] ?? 0)}</Text>
          </View>
        ))}
        <View style={s.row}>
          <Text style={s.what}>{say.tax(quote.taxPercent)}</Text>
          <Text style={s.number}>{cash(sums.taxCents)}</Text>
        </View>
        <View style={[s.row, s.bold]}>
          <Text style={s.what}>{say.inAll}</Text>
          <Text style={s.number}>{cash(sums.totalCents)}</Text>
        </View>
        <Text style={{ marginTop: 12 }}>{say.until(customerFullDate(toLocalDate(quote.validUntil), language))}</Text>
        {quote.answer ? (
          <Text>
            {say.answer[quote.answer]} {say.answer.by(quote.answeredBy)}
          </Text>
        ) : null}
        <View style={s.photos}>
          {photos.map((p) => (
            <Picture key={p.id} style={s.photo} src={{ data: Buffer.from(p.bytes), format: 'jpg' }} />
          ))}
        </View>
      </Page>
    </Document>,
  );
}
