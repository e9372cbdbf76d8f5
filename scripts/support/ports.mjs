import net from 'node:net';

/** @returns {Promise<boolean>} whether this host and port can be listened on now */
function canListen(port, host) {
  return new Promise((resolve) => {
    const server = net.createServer();
    // A machine without IPv6 has no ::1 to take.
    server.once('error', (error) => resolve(error.code === 'EADDRNOTAVAIL' || error.code === 'EAFNOSUPPORT'));
    server.listen({ port, host, exclusive: true }, () => server.close(() => resolve(true)));
  });
}

/**
 * Whether a port is free on both loopback addresses: "localhost" may be read as either,
 * and another program on the other one would answer in our place.
 */
export async function isFree(port) {
  return (await canListen(port, '127.0.0.1')) && (await canListen(port, '::1'));
}

/** A port that is free now. @param {number} [preferred] taken if it is still free */
export async function freePort(preferred) {
  if (preferred && (await isFree(preferred))) return preferred;
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** The first of `count` free ports in a row, from `from` up. @param {number} count @param {number} from */
export async function freePortsInARow(count, from) {
  for (let first = from; first + count < 65_536; first += count) {
    const free = await Promise.all(Array.from({ length: count }, (_, n) => isFree(first + n)));
    if (free.every(Boolean)) return first;
  }
  throw new Error(`There are no ${count} free ports in a row.`);
}
