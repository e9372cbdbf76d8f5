/** A coil from the side and what stands before it: nothing, a box at part of it, boxes at all of it. Arrows where air still goes. */
export function AirPathDrawing({ grade }: { grade: number }) {
  const boxes = [[], [28], [4, 28]][grade] ?? [];
  const arrows = [[10, 24, 38], [14], []][grade] ?? [];
  return (
    <g>
      <rect x="44" y="4" width="12" height="40" fill="none" stroke="currentColor" strokeWidth="1.6" />
      {[48, 52].map((x) => (
        <path key={x} d={`M${x} 4V44`} stroke="currentColor" strokeWidth="1.2" opacity="0.6" />
      ))}
      {arrows.map((y) => (
        <path key={y} d={`M8 ${y}H38M32 ${y - 5}L38 ${y}L32 ${y + 5}`} fill="none" stroke="currentColor" strokeWidth="1.8" />
      ))}
      {boxes.map((y) => (
        <rect key={y} x="18" y={y} width="22" height="18" className={grade === 2 ? 'fill-alarm' : 'fill-heat-4'} opacity="0.8" />
      ))}
    </g>
  );
}
