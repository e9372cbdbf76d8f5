type Point = { id: string; name: string; lat: number; lng: number };

const WIDE = 800;
const HIGH = 420;
const MARGIN = 30;

/** Kitchens as points on a plain grid, north up, no roads: enough to see one that was put in the wrong town. */
export function PlainMap({ points, shop }: { points: Point[]; shop: { lat: number; lng: number } | null }) {
  const all = [...points, ...(shop ? [shop] : [])];
  if (all.length < 2) return null;
  const [south, north] = [Math.min(...all.map((p) => p.lat)), Math.max(...all.map((p) => p.lat))];
  const [west, east] = [Math.min(...all.map((p) => p.lng)), Math.max(...all.map((p) => p.lng))];
  // A degree of longitude is shorter away from the equator.
  const squeeze = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const scale = Math.min(
    (WIDE - 2 * MARGIN) / Math.max(1e-4, (east - west) * squeeze),
    (HIGH - 2 * MARGIN) / Math.max(1e-4, north - south),
  );
  const x = (lng: number) => MARGIN + (lng - west) * squeeze * scale;
  const y = (lat: number) => MARGIN + (north - lat) * scale;
  const km = 111.195 / scale;
  return (
    <svg
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      className="w-full rounded-md border border-line bg-sunk"
      role="img"
      aria-label={`${points.length} kitchens by position, north up`}
    >
      {Array.from({ length: 8 }, (_, i) => (
        <g key={i} stroke="var(--line)">
          <line x1={i * 115} y1={0} x2={i * 115} y2={HIGH} />
          <line x1={0} y1={i * 60} x2={WIDE} y2={i * 60} />
        </g>
      ))}
      {points.map((p) => (
        <circle key={p.id} cx={x(p.lng)} cy={y(p.lat)} r={5} fill="var(--cold)">
          <title>{p.name}</title>
        </circle>
      ))}
      {shop ? (
        <path d={`M${x(shop.lng)} ${y(shop.lat) - 9}l9 9-9 9-9-9Z`} fill="var(--ink)">
          <title>The shop</title>
        </path>
      ) : null}
      <text x={10} y={HIGH - 10} fontSize="13" fill="var(--soft)">
        {`A square is ${(115 * km).toPrecision(2)} by ${(60 * km).toPrecision(2)} km`}
      </text>
    </svg>
  );
}
