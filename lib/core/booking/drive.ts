const EARTH_RADIUS_KM = 6371.0088; // mean radius, IUGG

export type Place = { lat: number | null; lng: number | null };

/** Great-circle distance in km (haversine); null where a place has no coordinates. */
export function greatCircleKm(a: Place, b: Place): number | null {
  if (a.lat === null || a.lng === null || b.lat === null || b.lng === null) return null;
  const rad = Math.PI / 180;
  const dLat = (b.lat - a.lat) * rad;
  const dLng = (b.lng - a.lng) * rad;
  const h = Math.sin(dLat / 2) ** 2 + Math.cos(a.lat * rad) * Math.cos(b.lat * rad) * Math.sin(dLng / 2) ** 2;
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** Minutes on the road: great circle × circuity at a mean speed; `unknownMinutes` where it cannot be told. */
export function driveMinutes(a: Place, b: Place, road: { circuity: number; speedKmh: number }, unknownMinutes = 20): number {
  const km = greatCircleKm(a, b);
  return km === null ? unknownMinutes : (km * road.circuity * 60) / road.speedKmh;
}
