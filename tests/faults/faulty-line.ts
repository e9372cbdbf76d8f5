import type { Random } from './random';

/** What can happen to a request on its way; weights say how often. */
export const FAULTS = {
  none: 40,
  /** Never leaves the tablet. */
  dropped_before: 10,
  /** Done in the office, the answer lost. */
  dropped_after: 12,
  /** Sent twice at once. */
  duplicated: 8,
  /** Lost on the way and delivered later, after newer ones. */
  reordered: 8,
  /** Only a part of the body arrives. */
  truncated_request: 7,
  /** Only a part of the answer arrives. */
  truncated_reply: 7,
  /** The database hangs up in the middle of it. */
  database_cut: 5,
  /** The office is killed in the middle of it. */
  office_killed: 3,
} as const;
export type Fault = keyof typeof FAULTS;

type World = { random: Random; cutDatabase: () => Promise<void>; killOffice: () => Promise<void>; count: (fault: Fault) => void };
const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const lost = () => new TypeError('fetch failed');

/** A line to the office on which things go wrong by a seed; `heal` makes it sound and delivers what was held back. */
export class FaultyLine {
  private sound = false;
  private held: (() => Promise<unknown>)[] = [];

  constructor(
    private readonly world: World,
    private readonly cookie: string,
  ) {}

  async heal(): Promise<void> {
    this.sound = true;
    await this.deliverHeld();
  }

  spoil(): void {
    this.sound = false;
  }

  private async deliverHeld(): Promise<void> {
    for (const send of this.held.splice(0)) await send();
  }

  readonly fetch: typeof fetch = async (input, init = {}) => {
    const { random } = this.world;
    const url = String(input);
    const headers = new Headers(init.headers);
    headers.set('cookie', this.cookie);
    // A signal cannot be used for two sendings, and cookies are set by hand here.
    const { signal: _, credentials: __, ...rest } = init;
    const send = (change: RequestInit = {}) => fetch(url, { ...rest, headers, ...change });
    if (this.sound) return send();
    if (this.held.length > 0 && random.chance(0.5)) await this.deliverHeld();
    const fault = random.weighted(FAULTS);
    this.world.count(fault);
    return this.suffer(fault, send, rest.body);
  };

  private async suffer(
    fault: Fault,
    send: (change?: RequestInit) => Promise<Response>,
    body: BodyInit | null | undefined,
  ): Promise<Response> {
    const { random, cutDatabase, killOffice } = this.world;
    const quiet = (sending: Promise<unknown>) => sending.catch(() => {});
    switch (fault) {
      case 'none':
        return send();
      case 'dropped_before':
        throw lost();
      case 'dropped_after':
        await quiet(send().then((r) => r.arrayBuffer()));
        throw lost();
      case 'duplicated': {
        const first = send();
        const second = send();
        void quiet(first.then((r) => r.arrayBuffer()));
        return second;
      }
      case 'reordered':
        this.held.push(() => quiet(send().then((r) => r.arrayBuffer())));
        throw lost();
      case 'truncated_request':
        if (body === null || body === undefined) throw lost();
        return send({ body: cut(body, random.next()) });
      case 'truncated_reply': {
        const reply = await send();
        const bytes = new Uint8Array(await reply.arrayBuffer());
        return new Response(bytes.slice(0, Math.floor(bytes.length * random.next())), {
          status: reply.status,
          headers: { 'content-type': reply.headers.get('content-type') ?? '' },
        });
      }
      case 'database_cut': {
        const sending = send();
        void quiet(sending);
        await sleep(random.whole(30));
        await cutDatabase();
        return sending;
      }
      case 'office_killed': {
        const sending = send();
        void quiet(sending);
        await sleep(random.whole(40));
        await killOffice();
        return sending;
      }
    }
  }
}

function cut(body: BodyInit, share: number): BodyInit {
  if (typeof body === 'string') return body.slice(0, Math.floor(body.length * share));
  if (body instanceof Blob) return body.slice(0, Math.floor(body.size * share));
  throw new Error('The tablet sends texts and pictures only.');
}
