/** An ice machine's plate with what the water leaves on it: nothing, a film, a crust in places, all over. */
export function ScaleDrawing({ grade }: { grade: number }) {
  const crust = Array.from(
    { length: grade === 2 ? 7 : grade === 3 ? 22 : 0 },
    (_, i) => `M${9 + ((i * 29) % 44)} ${9 + ((i * 17) % 28)}h4v3h-5z`,
  ).join('');
  return (
    <g>
      {grade === 1 ? <rect x="6" y="6" width="52" height="34" className="fill-heat-1" /> : null}
      <path d="M6 6H58V40H6ZM19 6V40M32 6V40M45 6V40M6 17H58M6 29H58" fill="none" stroke="currentColor" strokeWidth="1.6" />
      <path d={crust} className={grade === 3 ? 'fill-heat-4' : 'fill-heat-3'} />
    </g>
  );
}

/** A float in its trough: at the mark, hanging, running over. */
export function FloatDrawing({ grade }: { grade: number }) {
  const level = grade === 0 ? 24 : grade === 1 ? 32 : 12;
  return (
    <g>
      <path d={`M8 ${level}H56V42H8Z`} className="fill-cold-wash" />
      <path d="M8 10V42H56V10" fill="none" stroke="currentColor" strokeWidth="1.8" />
      <path d={`M50 12L28 ${level - 2}`} stroke="currentColor" strokeWidth="1.8" className={grade === 2 ? 'stroke-alarm' : ''} />
      <circle cx="27" cy={level - 2} r="5" fill="var(--sheet)" stroke="currentColor" strokeWidth="1.8" />
      {grade === 2 ? <path d="M58 14v10M61 20v12" stroke="currentColor" strokeWidth="1.8" className="stroke-alarm" /> : null}
    </g>
  );
}
