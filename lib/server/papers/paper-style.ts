import { StyleSheet } from '@react-pdf/renderer';
import { PAPER_FONT } from '../../core/reports/paper-fonts';

/** How everything a customer gets on paper is set. Sizes in points. */
export const PAPER = StyleSheet.create({
  page: { paddingVertical: 44, paddingHorizontal: 48, fontFamily: PAPER_FONT, fontSize: 9.5, color: '#1a2126' },
  // Not of the page: what stands fixed on each page would have its lines that much higher again on every next one.
  body: { fontSize: 9.5, lineHeight: 1.4 },
  shop: { flexDirection: 'row', alignItems: 'center', gap: 8, marginBottom: 14 },
  logo: { maxHeight: 36, maxWidth: 140, objectFit: 'contain' },
  shopName: { fontWeight: 700, color: '#0a6078' },
  kind: { color: '#5a6268' },
  title: { fontWeight: 700, fontSize: 17, lineHeight: 1.25, marginBottom: 8 },
  heading: { fontWeight: 700, fontSize: 12, marginTop: 16, marginBottom: 5 },
  unit: { borderTopWidth: 0.75, borderTopColor: '#c9ced1', paddingTop: 7, marginBottom: 9 },
  name: { fontWeight: 700, fontSize: 10.5 },
  soft: { color: '#5a6268' },
  bold: { fontWeight: 700 },
  pictures: { flexDirection: 'row', gap: 12, marginTop: 6 },
  column: { flex: 1, gap: 4 },
  picture: { width: '100%', height: 140, objectFit: 'contain', objectPosition: 'left' },
  signature: { width: 160, height: 60, objectFit: 'contain', marginTop: 16, borderWidth: 0.5, borderColor: '#c9ced1' },
  foot: { position: 'absolute', bottom: 22, left: 48, right: 48, color: '#5a6268', fontSize: 8, flexDirection: 'row' },
});
