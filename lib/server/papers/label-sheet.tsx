import { Document, Page, Path, StyleSheet, Svg, Text, View } from '@react-pdf/renderer';
import encodeQR from 'qr';
import { habits } from '../../core/measures/habits';
import { PAPER_FONT } from '../../core/reports/paper-fonts';

type Label = { tag: string; unit: string; kitchen: string; address: string };
/** `missing`: sentences that say what of the texts could not be set. */
type Props = { title: string; labels: readonly Label[]; missing: readonly string[] };

/** Points; 24 labels of 62 × 32 mm fit both papers with room for a printer's margins. */
const MM = 72 / 25.4;
const s = StyleSheet.create({
  page: { padding: 10 * MM, fontFamily: PAPER_FONT, color: '#1a2126' },
  sheet: { flexDirection: 'row', flexWrap: 'wrap' },
  label: {
    width: 62 * MM,
    height: 31.5 * MM,
    padding: 2.5 * MM,
    flexDirection: 'row',
    alignItems: 'center',
    borderWidth: 0.5,
    borderColor: '#84897f',
    borderStyle: 'dashed',
  },
  texts: { flex: 1, marginLeft: 2.5 * MM },
  tag: { fontSize: 13, fontWeight: 700 },
  unit: { fontSize: 9, marginTop: 2, fontWeight: 700 },
  kitchen: { fontSize: 7.5, marginTop: 2 },
  missing: { position: 'absolute', bottom: 3 * MM, left: 10 * MM, right: 10 * MM, fontSize: 6.5 },
});

/** A QR code as one path: a square for each dark module, with the quiet zone of four modules (ISO/IEC 18004). */
function Code({ text }: { text: string }) {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: 4 });
  const size = rows.length;
  const d = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  return (
    <Svg viewBox={`0 0 ${size} ${size}`} style={{ width: 26 * MM, height: 26 * MM }}>
      <Path d={d} fill="#000000" />
    </Svg>
  );
}

/** A sheet to cut: what to scan, what to type where the camera will not do, and what it is stuck on. */
export function LabelSheetDocument({ title, labels, missing }: Props) {
  return (
    <Document title={title} creator="Rimebook">
      <Page size={habits().paper} style={s.page}>
        <View style={s.sheet}>
          {labels.map((l) => (
            <View key={l.address} style={s.label} wrap={false}>
              <Code text={l.address} />
              <View style={s.texts}>
                <Text style={s.tag}>{l.tag}</Text>
                <Text style={s.unit}>{l.unit}</Text>
                <Text style={s.kitchen}>{l.kitchen}</Text>
              </View>
            </View>
          ))}
        </View>
        {missing.length > 0 ? (
          <Text style={s.missing} fixed>
            {missing.join(' ')}
          </Text>
        ) : null}
      </Page>
    </Document>
  );
}
