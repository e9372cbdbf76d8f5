import '../../globals.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { RoundApp } from './_components/round-app';

const root = document.getElementById('round');
if (root)
  createRoot(root).render(
    <StrictMode>
      <RoundApp />
    </StrictMode>,
  );
