import { Image as Picture, StyleSheet, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '../../core/customer-words';
import { quoteLineWords, quoteSums } from '../../core/jobs';
import { money } from '../../core/measures/figures';
import { toLocalDate } from '../../core/calendar/date-column';
import { customerFullDate } from '../../core/calendar/when';
import type { ShopOnReport } from '../../core/reports/visit-for-customer';
import { fullKitchenName } from '../../core/wording/kitchen-name';
import { Paper } from './paper';
import { PAPER } from './paper-style';
import type { QuoteOnFile } from '../../core/jobs/quote-on-file';

const s = StyleSheet.create({
  row: { flexDirection: 'row', borderBottomWidth: 0.5, borderColor: '#84897f', paddingVertical: 4 },
  what: { flex: 1 },
  number: { width: 80, textAlign: 'right' },
  photos: { flexDirection: 'row', flexWrap: 'wrap', gap: 8, marginTop: 16 },
  photo: { width: 160, height: 120, objectFit: 'cover' },
});

type Photo = { id: string; bytes: Uint8Array };
type Props = { onFile: { quote: QuoteOnFile; shop: ShopOnReport; photos: readonly Photo[] }; missing?: string[] };

/** A quote on paper: the reason, the lines, what it comes to, until when it holds, and the pictures. */
export function QuotePaper({ onFile: { quote, shop, photos }, missing = [] }: Props) {
  const { job } = quote;
  const { language } = job.kitchen.customer;
  const say = wordsIn(language).quote;
  const title = say.title(`${job.number}-${quote.version}`);
  return (
    <Paper name={title} language={language} shop={shop} kind={fullKitchenName(job.kitchen)} title={title} lead={[quote.reason, ...missing]}>
      <Text style={{ ...PAPER.soft, marginTop: 4, marginBottom: 12 }}>
        {[job.kitchen.address, job.units.map(({ unit }) => `${unit.name} (${unit.tag})`).join(', ')].filter(Boolean).join('. ')}
      </Text>
      <Lines quote={quote} />
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
    </Paper>
  );
}

function Lines({ quote: { lines, taxPercent, currency, job } }: { quote: QuoteOnFile }) {
  const say = wordsIn(job.kitchen.customer.language).quote;
  const sums = quoteSums(lines, taxPercent);
  const cash = (cents: number) => money(cents, currency);
  return (
    <>
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
        <Text style={s.what}>{say.tax(taxPercent)}</Text>
        <Text style={s.number}>{cash(sums.taxCents)}</Text>
      </View>
      <View style={{ ...s.row, ...PAPER.bold }}>
        <Text style={s.what}>{say.inAll}</Text>
        <Text style={s.number}>{cash(sums.totalCents)}</Text>
      </View>
    </>
  );
}
