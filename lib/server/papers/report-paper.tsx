import { Image as Picture, Text, View } from '@react-pdf/renderer';
import { wordsIn } from '../../core/customer-words';
import type { CustomerReport, ShopOnReport } from '../../core/reports/visit-for-customer';
import { Paper, PaperUnit, PaperWork } from './paper';
import { PAPER as s } from './paper-style';

type Props = { onFile: { report: CustomerReport; shop: ShopOnReport; pictures: Map<string, Uint8Array> }; missing?: string[] };

type Photos = { of: { before: string[]; after: string[] }; pictures: Map<string, Uint8Array>; before: string; after: string };

/** Row by row, before and after side by side; no row is torn by the end of a page. */
function Pictures({ of, pictures, before, after }: Photos) {
  const rows = Math.max(of.before.length, of.after.length);
  return Array.from({ length: rows }, (_, i) => (
    <View key={i} style={s.pictures} wrap={false}>
      {[
        { id: of.before[i], caption: before },
        { id: of.after[i], caption: after },
      ].map(({ id, caption }) => {
        const bytes = id === undefined ? undefined : pictures.get(id);
        return (
          <View key={caption} style={s.column}>
            {bytes ? <Text style={s.soft}>{caption}</Text> : null}
            {bytes ? <Picture src={{ data: Buffer.from(bytes), format: 'jpg' }} style={s.picture} /> : null}
          </View>
        );
      })}
    </View>
  ));
}

/** The same report on paper. */
export function ReportPaper({ onFile: { report: r, shop, pictures }, missing = [] }: Props) {
  const say = wordsIn(r.language);
  return (
    <Paper
      name={`${say.report}, ${r.title}`}
      language={r.language}
      shop={shop}
      kind={say.report}
      title={r.title}
      lead={[...r.lead, ...missing]}
    >
      {r.work.length > 0 ? <Text style={s.heading}>{say.headings.work}</Text> : null}
      <PaperWork work={r.work} />
      {r.food.length > 0 ? <Text style={s.heading}>{say.headings.food}</Text> : null}
      {r.food.map((line) => (
        <Text key={line}>{line}</Text>
      ))}
      <Text style={s.heading}>{say.headings.units}</Text>
      {r.units.map((u) => (
        <View key={u.id}>
          <PaperUnit unit={u} />
          <Pictures of={u.photos} pictures={pictures} before={say.headings.before} after={say.headings.after} />
        </View>
      ))}
      {r.signature.png ? <Picture src={`data:image/png;base64,${r.signature.png}`} style={s.signature} /> : null}
      {r.signature.line ? <Text style={{ ...s.soft, marginTop: 4 }}>{r.signature.line}</Text> : null}
    </Paper>
  );
}
