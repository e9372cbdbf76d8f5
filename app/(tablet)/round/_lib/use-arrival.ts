import { useCallback } from 'react';
import { useTablet } from './tablet-context';

const ASK: PositionOptions = { enableHighAccuracy: true, timeout: 30_000, maximumAge: 20_000 };

/** Where the tablet is right now, for an arrival that was just written down: only if its person allows it, and never in the way. */
export function useArrival(visitId: string): () => void {
  const tablet = useTablet();
  return useCallback(() => {
    if (!tablet.read().me?.sharesArrivals || !('geolocation' in navigator)) return;
    navigator.geolocation.getCurrentPosition(
      ({ coords }) =>
        void tablet.arrivedAt({ visitId, lat: coords.latitude, lng: coords.longitude, accuracyM: coords.accuracy }).catch(() => {}),
      () => {},
      ASK,
    );
  }, [tablet, visitId]);
}
