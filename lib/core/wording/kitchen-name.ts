/** A kitchen as it is named where other customers' stand beside it. One that bears its customer's name is named once. */
export const fullKitchenName = ({ name, customer }: { name: string; customer: string }): string =>
  name === customer ? name : `${customer}, ${name}`;
