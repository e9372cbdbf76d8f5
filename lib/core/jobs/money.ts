/** Money in whole cents as it is written: "$1,240.50". */
export const money = (cents: number, currency: string): string =>
  new Intl.NumberFormat('en-US', { style: 'currency', currency }).format(cents / 100);
