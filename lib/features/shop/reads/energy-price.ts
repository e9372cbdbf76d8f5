import 'server-only';

type Priced = { energyPricePerKwh: number | null };

/** A kitchen with the price of its energy: its own where it has one, else the shop's. */
export const priced = <K extends Priced>(kitchen: K, shop: Priced | null): K =>
  kitchen.energyPricePerKwh === null ? { ...kitchen, energyPricePerKwh: shop?.energyPricePerKwh ?? null } : kitchen;
