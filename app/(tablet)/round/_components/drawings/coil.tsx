// One path for all that is alike: five drawings stand on a screen that must answer at once.
const FINS = Array.from({ length: 11 }, (_, i) => 7 + i * 5);
const FIN_LINES = FINS.map((x) => `M${x} 6V42`).join('');

/**
 * A finned coil with a lamp behind it. Bare: thin fins, bright gaps. Filmed: the same gaps, dull fins, a finger's clean
 * wipe. Furred: a coat stands out over the edge of the face, the gaps are still lit. Matted and packed: the coat closes them.
 */
export function CoilDrawing({ grade }: { grade: number }) {
  return (
    <g>
      <path d={light(grade)} className="fill-heat-2" opacity={grade === 0 ? 0.95 : 0.55} />
      <path d={FIN_LINES} className={grade === 0 ? '' : 'stroke-heat-4'} stroke="currentColor" strokeWidth={grade === 0 ? 0.9 : 1.7} />
      {grade === 1 ? (
        <path d="M18 38C26 34 34 26 44 12" className="stroke-sheet" strokeWidth="5" strokeLinecap="round" fill="none" />
      ) : null}
      {grade >= 2 ? <path d={coat(grade)} className={grade === 2 ? 'fill-heat-3' : 'fill-heat-4'} /> : null}
      {grade === 4 ? <rect x="5" y="6" width="54" height="36" className="fill-heat-5" opacity="0.85" /> : null}
      <path d="M4 12H60M4 24H60M4 36H60" stroke="currentColor" strokeWidth="2" opacity={grade >= 3 ? 0.4 : 0.8} />
      <rect x="4" y="5" width="56" height="38" fill="none" stroke="currentColor" strokeWidth="1.6" />
      {grade >= 2 ? <path d={edge(grade)} fill="none" className="stroke-heat-4" strokeWidth="1.6" strokeLinecap="round" /> : null}
    </g>
  );
}

/** The gaps through which the lamp still shows. */
function light(grade: number): string {
  const lit = grade === 4 ? [] : grade === 3 ? [1, 4, 8] : [...FINS.keys()].slice(0, 10);
  return lit.map((i) => `M${(FINS[i] ?? 0) + 0.8} ${grade === 3 ? 8 + ((i * 7) % 16) : 7}h3.6v${grade === 3 ? 12 : 34}h-3.6Z`).join('');
}

/** The coat on the fins: along each of them where furred, over the gaps where matted. */
function coat(grade: number): string {
  const r = grade === 2 ? 1.5 : 3.1;
  const spots = Array.from({ length: grade === 2 ? 22 : 26 }, (_, i): [number, number] =>
    grade === 2 ? [FINS[i % FINS.length] ?? 0, 9 + ((i * 13) % 30)] : [8 + ((i * 37) % 48), 8 + ((i * 23) % 32)],
  );
  return spots.map(([x, y]) => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`).join('');
}

/** Hair over the edge of the face: it can be lifted off. */
function edge(grade: number): string {
  const long = grade === 2 ? 3 : 4.5;
  return Array.from({ length: 9 }, (_, i) => `M${8 + i * 6} 5q${i % 2 === 0 ? 2 : -2} ${-long / 2} ${i % 2 === 0 ? 1 : -1} ${-long}`).join(
    '',
  );
}
