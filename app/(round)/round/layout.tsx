import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';

export const metadata: Metadata = {
  title: 'Round',
  appleWebApp: { capable: true, title: 'Rimebook', statusBarStyle: 'default' },
  icons: { apple: '/icons/apple-touch-180.png' },
};

export const viewport: Viewport = { width: 'device-width', initialScale: 1, viewportFit: 'cover', themeColor: '#0a6078' };

export default function RoundLayout({ children }: { children: ReactNode }) {
  return children;
}
