/** A kitchen as it is named where other customers' stand beside it. One that bears its customer's name is named once. */
export const fullKitchenName = ({ name, customer }: { name: string; customer: string | { name: string } }): string => {
  const who = typeof customer === 'string' ? customer : customer.name;
  return name === who ? name : `${who}, ${name}`;
};

/** The same for a line that says the kitchen and its customer by name. */
export const kitchenInFull = ({ kitchen, customer }: { kitchen: string; customer: string }): string =>
  fullKitchenName({ name: kitchen, customer });
