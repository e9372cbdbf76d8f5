import { Document, Image as Picture, Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '@/lib/core/customer-words';
import type { CustomerReport, ShopOnReport } from '@/lib/core/reports/visit-for-customer';
import { PAPER_FONT } from '@/lib/core/reports/paper-fonts';

const s = StyleSheet.create({
  page: { paddingVertical: 44, paddingHorizontal: 48, fontFamily: PAPER_FONT, fontSize: 10, lineHeight: 1.4, color: '#1a2126' },
  shop: { flexDirection: 'row', alignItems: 'center', gap: 8, marginBottom: 14 },
  logo: { maxHeight: 36, maxWidth: 140, objectFit: 'contain' },
  shopName: { fontWeight: 700, color: '#0a6078' },
  kind: { color: '#5a6268' },
  title: { fontWeight: 700, fontSize: 18, lineHeight: 1.25, marginBottom: 8 },
  heading: { fontWeight: 700, fontSize: 12.5, marginTop: 16, marginBottom: 5 },
  unit: { borderTopWidth: 0.75, borderTopColor: '#c9ced1', paddingTop: 7, marginBottom: 9 },
  name: { fontWeight: 700, fontSize: 11 },
  soft: { color: '#5a6268' },
  bold: { fontWeight: 700 },
  pictures: { flexDirection: 'row', gap: 12, marginTop: 6 },
  column: { flex: 1, gap: 4 },
  picture: { width: '100%', maxHeight: 150, objectFit: 'contain', objectPosition: 'left' },
  signature: { width: 160, height: 60, objectFit: 'contain', marginTop: 16, borderWidth: 0.5, borderColor: '#c9ced1' },
  foot: { position: 'absolute', bottom: 22, left: 48, right: 48, color: '#5a6268', fontSize: 8, flexDirection: 'row' },
});

type Props = { onFile: { report: CustomerReport; shop: ShopOnReport; pictures: Map<string, Uint8Array> } };

/** The same report on paper. Sizes in points. */
export function ReportPaper({ onFile: { report: r, shop, pictures } }: Props) {
  const say = wordsIn(r.language);
  const picture = (id: string) => pictures.get(id);
  return (
    <Document title={`${say.report}, ${r.title}`} author={shop.name} language={r.language}>
      <Page size="LETTER" style={s.page}>
        <View style={s.shop}>
          {shop.logo ? <Picture src={`data:image/png;base64,${shop.logo}`} style={s.logo} /> : null}
          <Text style={s.shopName}>{shop.name}</Text>
        </View>
        <Text style={s.kind}>{say.report}</Text>
        <Text style={s.title}>{r.title}</Text>
        <Text>{r.lead.join(' ')}</Text>
        {r.work.length > 0 ? <Text style={s.heading}>{say.headings.work}</Text> : null}
        {r.work.map((w, i) => (
          <Text key={i} style={{ marginBottom: 3 }}>
            <Text style={s.bold}>{w.soon}. </Text>
            {w.unit ? `${w.unit}: ` : ''}
            {w.what}
          </Text>
        ))}
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
        <View style={s.foot} fixed>
          <Text style={{ flex: 1 }}>{[shop.name, shop.phone, shop.email].filter(Boolean).join(' · ')}</Text>
          <Text render={({ pageNumber, totalPages }) => `${pageNumber} / ${totalPages}`} />
        </View>
      </Page>
    </Document>
  );
}
