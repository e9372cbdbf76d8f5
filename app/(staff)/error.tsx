'use client';

export { DidNotLoad as default } from '../_ui/did-not-load';
