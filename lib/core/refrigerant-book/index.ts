/** The refrigerant book: additions, leak rates, cylinders. The rule's text and a licensed person decide. */
export * from './cylinders';
export * from './leak-rate';
export * from './leak-rules';
export * from './repair-clock';
export * from './year-totals';
export * from './additions';
export * from './certificates';
export * from './ways';
