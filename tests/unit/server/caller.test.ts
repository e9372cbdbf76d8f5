import { describe, expect, it } from 'vitest';
import { addressOf } from '@/lib/server/doors/address';

const from = (peer: string | null, forwarded: string | null, trusted = '') =>
  addressOf((name) => (name === 'x-forwarded-for' ? forwarded : name === 'x-rimebook-peer' ? peer : null), trusted);

describe('whose address a call comes from', () => {
  it('is who is connected, whatever the caller writes', () => {
    expect(from('203.0.113.9', null)).toBe('203.0.113.9');
    expect(from('203.0.113.9', '198.51.100.1')).toBe('203.0.113.9');
  });

  it('is whom a named proxy speaks for, and no further back than that', () => {
    expect(from('10.0.0.2', '198.51.100.1', '10.0.0.0/8')).toBe('198.51.100.1');
    expect(from('127.0.0.1', '198.51.100.1', 'loopback')).toBe('198.51.100.1');
    // What the caller wrote before the proxy added its own word is not believed.
    expect(from('10.0.0.2', '192.0.2.1, 198.51.100.1', '10.0.0.0/8')).toBe('198.51.100.1');
    expect(from('10.0.0.2', '198.51.100.1, 10.0.0.7', '10.0.0.2, 10.0.0.7')).toBe('198.51.100.1');
    expect(from('203.0.113.9', '198.51.100.1', '10.0.0.0/8')).toBe('203.0.113.9');
  });

  it('counts an IPv6 network of 64 bits as one, and IPv4 written as IPv6 as IPv4', () => {
    expect(from('2001:db8:1:2::5', null)).toBe(from('2001:db8:1:2:ffff::1', null));
    expect(from('2001:db8:1:2::5', null)).not.toBe(from('2001:db8:1:3::5', null));
    expect(from('::ffff:203.0.113.9', null)).toBe('203.0.113.9');
  });

  it('is one and the same where nobody can say', () => {
    expect(from(null, '198.51.100.1', '0.0.0.0/0')).toBe('unknown');
    expect(from('10.0.0.2', 'not an address', '10.0.0.0/8')).toBe('unknown');
  });
});
