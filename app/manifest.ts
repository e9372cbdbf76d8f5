import type { MetadataRoute } from 'next';

export default function manifest(): MetadataRoute.Manifest {
  return {
    id: '/round',
    name: 'Rimebook round',
    short_name: 'Rimebook',
    description: 'The round on the tablet: visits, units, findings and readings, with and without signal.',
    start_url: '/round',
    scope: '/',
    display: 'standalone',
    background_color: '#faf8f3',
    theme_color: '#0a6078',
    icons: [
      { src: '/icons/icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: '/icons/icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: '/icons/maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  };
}
