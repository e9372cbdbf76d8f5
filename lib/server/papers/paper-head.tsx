import type { ComponentProps } from 'react';
import { Image as Picture, Text, View } from '@react-pdf/renderer';
import type { ShopOnReport } from '../../core/reports/visit-for-customer';
import { PAPER as s } from './paper-style';

export const PaperHead = ({ shop, kind, title, lead }: { shop: ShopOnReport; kind: string; title: string; lead: string[] }) => (
  <>
    <View style={s.shop}>
      {shop.logo ? <Picture src={`data:image/png;base64,${shop.logo}`} style={s.logo} /> : null}
      <Text style={s.shopName}>{shop.name}</Text>
    </View>
    <Text style={s.kind}>{kind}</Text>
    <Text style={s.title}>{title}</Text>
    <Text>{lead.join(' ')}</Text>
  </>
);

export const PaperWork = ({ work }: { work: readonly { unit: string; what: string; soon: string }[] }) => (
  <>
    {work.map((w, i) => (
      <Text key={i} style={{ marginBottom: 3 }}>
        <Text style={s.bold}>{w.soon}. </Text>
        {w.unit ? `${w.unit}: ` : ''}
        {w.what}
      </Text>
    ))}
  </>
);

type Unit = { name: string; lines: readonly string[]; next: readonly string[] };

/** What is said of a unit, and what comes next for it. */
export const PaperUnit = ({ unit, style = {} }: { unit: Unit; style?: ComponentProps<typeof View>['style'] }) => (
  <View style={{ ...s.unit, ...style }} wrap={false}>
    <Text style={s.name}>{unit.name}</Text>
    {unit.lines.map((line, i) => (
      <Text key={i}>{line}</Text>
    ))}
    {unit.next.map((line) => (
      <Text key={line} style={s.soft}>
        {line}
      </Text>
    ))}
  </View>
);

/** The shop's own words under everything. */
export const PaperClose = ({ shop }: { shop: ShopOnReport }) => (shop.footer ? <Text style={{ marginTop: 16 }}>{shop.footer}</Text> : null);

/** At the foot of each page. */
export const PaperFoot = ({ shop }: { shop: ShopOnReport }) => (
  <View style={s.foot} fixed>
    <Text style={{ flex: 1 }}>{[shop.name, shop.phone, shop.email].filter(Boolean).join(' · ')}</Text>
    <Text render={({ pageNumber, totalPages }) => `${pageNumber} / ${totalPages}`} />
  </View>
);
