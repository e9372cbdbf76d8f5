import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import './globals.css';

export const metadata: Metadata = {
  title: { default: 'Rimebook', template: '%s · Rimebook' },
  description: 'Coils, drains and evaporators of restaurant kitchens: what is due, what was found, what it costs.',
};

export const viewport: Viewport = { width: 'device-width', initialScale: 1, themeColor: '#0a6078' };

export default function RootLayout({ children }: { children: ReactNode }) {
  return (
    <html lang="en">
      <body>{children}</body>
    </html>
  );
}
