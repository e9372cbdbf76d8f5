import type { ComponentProps, ReactNode } from 'react';
import { Document, Image as Picture, Page, Text, View } from '@react-pdf/renderer';
import type { Language } from '../../core/customer-words';
import { habits } from '../../core/measures/habits';
import type { ShopOnReport } from '../../core/reports/visit-for-customer';
import { PAPER as s } from './paper-style';

type Head = { shop: ShopOnReport; kind: string; title: string; lead: string[] };
type PaperProps = Head & { name: string; language: Language; children: ReactNode };

/** A document as a customer gets it: the shop's head, what is said, the shop's own words, and a foot on each page. */
export const Paper = ({ name, language, children, ...head }: PaperProps) => (
  <Document title={name} author={head.shop.name} creator="Rimebook" language={language}>
    <Page size={habits().paper} style={s.page}>
      <View style={s.body}>
        <PaperHead {...head} />
        {children}
        {head.shop.footer ? <Text style={{ marginTop: 16 }}>{head.shop.footer}</Text> : null}
      </View>
      <View style={s.foot} fixed>
        <Text style={{ flex: 1 }}>{[head.shop.name, head.shop.phone, head.shop.email].filter(Boolean).join(' · ')}</Text>
        <Text render={({ pageNumber, totalPages }) => `${pageNumber} / ${totalPages}`} />
      </View>
    </Page>
  </Document>
);

const PaperHead = ({ shop, kind, title, lead }: Head) => (
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
