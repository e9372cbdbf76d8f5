/** International-table British thermal unit, J. */
const BTU_J = 1055.05585262;

export const btuPerHourToWatt = (x: number) => (x * BTU_J) / 3600;
export const wattToBtuPerHour = (x: number) => (x * 3600) / BTU_J;
export const jouleToKilowattHour = (x: number) => x / 3.6e6;
export const kilowattHourToJoule = (x: number) => x * 3.6e6;
export const btuPerPoundToJoulePerKilogram = (x: number) => x * 2326;
export const joulePerKilogramToBtuPerPound = (x: number) => x / 2326;
