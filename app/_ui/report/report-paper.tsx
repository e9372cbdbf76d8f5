import { Document, Image as Picture, Page, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '@/lib/core/customer-words';
import type { CustomerReport, ShopOnReport } from '@/lib/core/reports/visit-for-customer';
import { PaperFoot, PaperHead, PaperWork } from './paper-head';
import { PAPER as s } from './paper-style';

type Props = { onFile: { report: CustomerReport; shop: ShopOnReport; pictures: Map<string, Uint8Array> } };

/** The same report on paper. Sizes in points. */
export function ReportPaper({ onFile: { report: r, shop, pictures } }: Props) {
  const say = wordsIn(r.language);
  const picture = (id: string) => pictures.get(id);
  return (
    <Document title={`${say.report}, ${r.title}`} author={shop.name} language={r.language}>
      <Page size="LETTER" style={s.page}>
        <PaperHead shop={shop} kind={say.report} title={r.title} lead={r.lead} />
        {r.work.length > 0 ? <Text style={s.heading}>{say.headings.work}</Text> : null}
        <PaperWork work={r.work} />
        {r.food.length > 0 ? <Text style={s.heading}>{say.headings.food}</Text> : null}
        {r.food.map((line) => (
          <Text key={line}>{line}</Text>
        ))}
        <Text style={s.heading}>{say.headings.units}</Text>
        {r.units.map((u) => (
          <View key={u.id} style={s.unit} minPresenceAhead={60}>
            <Text style={s.name}>{u.name}</Text>
            {u.lines.map((line, i) => (
              <Text key={i}>{line}</Text>
            ))}
            {u.next.map((line) => (
              <Text key={line} style={s.soft}>
                {line}
              </Text>
            ))}
            {u.photos.before.length + u.photos.after.length > 0 ? (
              <View style={s.pictures}>
                {(['before', 'after'] as const).map((phase) => (
                  <View key={phase} style={s.column}>
                    <Text style={s.soft}>{say.headings[phase]}</Text>
                    {u.photos[phase].map((id) => {
                      const bytes = picture(id);
                      return bytes ? <Picture key={id} src={{ data: Buffer.from(bytes), format: 'jpg' }} style={s.picture} /> : null;
                    })}
                  </View>
                ))}
              </View>
            ) : null}
          </View>
        ))}
        {r.signature.png ? <Picture src={`data:image/png;base64,${r.signature.png}`} style={s.signature} /> : null}
        {r.signature.words ? <Text style={{ ...s.soft, marginTop: 4 }}>{r.signature.words}</Text> : null}
        {shop.words ? <Text style={{ marginTop: 16 }}>{shop.words}</Text> : null}
        <PaperFoot shop={shop} />
      </Page>
    </Document>
  );
}
