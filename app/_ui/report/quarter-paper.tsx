import { Document, Page, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '@/lib/core/customer-words';
import type { QuarterReport } from '@/lib/core/reports/quarter-for-customer';
import type { ShopOnReport } from '@/lib/core/reports/visit-for-customer';
import { PaperFoot, PaperHead, PaperWork } from './paper-head';
import { PAPER as s } from './paper-style';

type Props = { onFile: { report: QuarterReport; shop: ShopOnReport }; missing?: string[] };

/** The same summary on paper. `missing`: what is to be said of letters that the paper does not have. */
export function QuarterPaper({ onFile: { report: r, shop }, missing = [] }: Props) {
  const say = wordsIn(r.language).quarter;
  return (
    <Document title={`${say.name}, ${r.title}`} author={shop.name} language={r.language}>
      <Page size="LETTER" style={s.page}>
        <View style={s.body}>
          <PaperHead shop={shop} kind={say.name} title={r.title} lead={[...r.lead, ...missing]} />
          {r.kitchens.map((k) => (
            <View key={k.id}>
              <Text style={{ ...s.heading, fontSize: 13 }} minPresenceAhead={60}>
                {k.name}
              </Text>
              {k.lines.map((line) => (
                <Text key={line}>{line}</Text>
              ))}
              {k.work.length > 0 ? (
                <Text style={s.heading} minPresenceAhead={40}>
                  {say.headings.work}
                </Text>
              ) : null}
              <PaperWork work={k.work} />
              {k.units.map((u) => (
                <View key={u.id} style={{ ...s.unit, marginTop: 7, marginBottom: 0 }} wrap={false}>
                  <Text style={s.name}>{u.name}</Text>
                  {u.lines.map((line, i) => (
                    <Text key={i}>{line}</Text>
                  ))}
                  {u.next.map((line) => (
                    <Text key={line} style={s.soft}>
                      {line}
                    </Text>
                  ))}
                </View>
              ))}
            </View>
          ))}
          {shop.words ? <Text style={{ marginTop: 16 }}>{shop.words}</Text> : null}
        </View>
        <PaperFoot shop={shop} />
      </Page>
    </Document>
  );
}
