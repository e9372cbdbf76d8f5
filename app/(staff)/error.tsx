'use client';

export { DidNotLoad as default } from '@/app/_ui/feedback/did-not-load';
