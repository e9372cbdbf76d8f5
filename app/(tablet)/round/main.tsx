import '@fontsource/atkinson-hyperlegible-next/400.css';
import '@fontsource/atkinson-hyperlegible-next/700.css';
import '../tablet.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { readyScreens } from './_components/later';
import { warmUnitPage } from './_components/warm';
import { RoundApp } from './_components/round-app';
import { keepTalking, openTablet } from './_lib/open-tablet';
import { idle, readyEstimators } from './_lib/use-estimator';

const QUIET_MS = 500;

const tablet = openTablet();
// The shell says that the round opens; the first screen drawn is the round itself.
await tablet.open();
const root = document.getElementById('round');
if (root)
  createRoot(root).render(
    <StrictMode>
      <RoundApp tablet={tablet} />
    </StrictMode>,
  );
// The screen first.
requestAnimationFrame(() =>
  setTimeout(() => {
    void readyScreens()
      .then(idle)
      .then(() => warmUnitPage(tablet));
    void keepTalking(tablet);
    // Again when the first round, or a new one, has come and the line is quiet.
    let quiet: ReturnType<typeof setTimeout> | undefined;
    tablet.subscribe(() => {
      clearTimeout(quiet);
      quiet = setTimeout(() => tablet.snapshot.line !== 'sending' && void readyEstimators(tablet.snapshot.visits), QUIET_MS);
    });
    void readyEstimators(tablet.snapshot.visits);
  }),
);
