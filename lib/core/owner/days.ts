/** Days that the owner's pages speak of where an address names none. */
export const SHOP_DAYS = 90;
export const RIGHT_DAYS = 365;
