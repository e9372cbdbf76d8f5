/** What a kilowatt-hour costs a kitchen: its own price, else the shop's, else nothing that money could be told from. */
export function energyPriceWords(own: number | null, shop: { energyPricePerKwh: number | null; currency: string } | null): string {
  if (own !== null) return shop === null ? `${own} per kWh` : `${own} ${shop.currency} per kWh`;
  if (shop === null || shop.energyPricePerKwh === null) return 'Not on file; no cost is shown.';
  return `${shop.energyPricePerKwh} ${shop.currency} per kWh, the shop’s`;
}
