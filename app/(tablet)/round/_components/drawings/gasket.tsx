/** A door's gasket, gripping a slip of paper or not. */
export function GasketDrawing({ grade }: { grade: number }) {
  return (
    <g strokeLinejoin="round">
      <rect x="6" y="6" width="36" height="36" rx="2" fill="none" stroke="currentColor" strokeWidth="1.6" />
      <path
        d={grade === 2 ? 'M11 11H37V22M37 30V37H24M18 37H11V11' : 'M11 11H37V37H11Z'}
        fill="none"
        className={grade === 0 ? '' : grade === 1 ? 'stroke-heat-4' : 'stroke-alarm'}
        stroke={grade === 0 ? 'currentColor' : undefined}
        strokeWidth={grade === 0 ? 4 : 3.2}
        strokeDasharray={grade === 1 ? '7 1.6' : undefined}
      />
      <g transform={grade === 0 ? undefined : `translate(${grade === 1 ? 3 : 9} ${grade === 1 ? 1 : 4}) rotate(${grade * 6} 44 24)`}>
        <path d="M34 19H56V29H34Z" fill="var(--sheet)" stroke="currentColor" strokeWidth="1.6" />
        <path d="M40 24h12" stroke="currentColor" strokeWidth="1.2" />
      </g>
    </g>
  );
}
