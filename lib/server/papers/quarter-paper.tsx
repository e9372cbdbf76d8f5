import { Text, View } from '@react-pdf/renderer';
import { wordsIn } from '../../core/customer-words';
import type { QuarterReport } from '../../core/reports/quarter-for-customer';
import type { ShopOnReport } from '../../core/reports/visit-for-customer';
import { Paper, PaperUnit, PaperWork } from './paper';
import { PAPER as s } from './paper-style';

type Props = { onFile: { report: QuarterReport; shop: ShopOnReport }; missing?: string[] };

/** The same summary on paper. `missing`: what is to be said of letters that the paper does not have. */
export function QuarterPaper({ onFile: { report: r, shop }, missing = [] }: Props) {
  const say = wordsIn(r.language).quarter;
  return (
    <Paper
      name={`${say.name}, ${r.title}`}
      language={r.language}
      shop={shop}
      kind={say.name}
      title={r.title}
      lead={[...r.lead, ...missing]}
    >
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
    </Paper>
  );
}
