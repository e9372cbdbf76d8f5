import { Document, Page, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '../../core/customer-words';
import type { QuarterReport } from '../../core/reports/quarter-for-customer';
import type { ShopOnReport } from '../../core/reports/visit-for-customer';
import { PaperClose, PaperFoot, PaperHead, PaperUnit, PaperWork } from './paper-head';
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
                <PaperUnit key={u.id} unit={u} style={{ marginTop: 7, marginBottom: 0 }} />
              ))}
            </View>
          ))}
          <PaperClose shop={shop} />
        </View>
        <PaperFoot shop={shop} />
      </Page>
    </Document>
  );
}
